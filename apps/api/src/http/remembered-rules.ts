import { getMetadataStorage } from 'class-validator';

type Storage = ReturnType<typeof getMetadataStorage>;
type Rules = ReturnType<Storage['getTargetValidationMetadatas']>;

/**
 * For each object it checks, class-validator looks through the rules of every class there is for those that the object's
 * class inherits. They are settled once the class is defined, so they are looked for once.
 */
export function rememberRules(storage: Storage = getMetadataStorage()): void {
  const lookUp = storage.getTargetValidationMetadatas.bind(storage);
  const known = new Map<unknown, Rules>();
  storage.getTargetValidationMetadatas = (target, schema, always, strictGroups, groups) => {
    const general = !schema && !always && !strictGroups && groups === undefined;
    let rules = general ? known.get(target) : undefined;
    if (!rules) {
      rules = lookUp(target, schema, always, strictGroups, groups);
      if (general) known.set(target, rules);
    }
    return rules;
  };
}
