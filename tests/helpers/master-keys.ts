/** The same for every API and worker of the tests: what one seals the other opens. */
export const masterKeys = `test:${'t'.repeat(43)}`;
