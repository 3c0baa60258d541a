export { orderPasswordLink } from './order-password-link.js';
export { revokeSignIns } from './sign-ins.queries.js';
