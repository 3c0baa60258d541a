export { isPublicAddress } from './public-address.js';
export { endpointSecret, signatureHeaders, type SignedMessage } from './signature.js';
export {
  checkedAddresses,
  ForbiddenTarget,
  readTarget,
  type Address,
  type Resolve,
  type TargetRules,
} from './target.js';
