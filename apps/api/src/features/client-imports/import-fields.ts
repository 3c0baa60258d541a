/** What a list can say of a client, and headers such columns often have; compared without case, spaces and signs. */
export const importFields = {
  givenName: ['given name', 'first name', 'forename', 'vorname', 'fornavn', 'förnamn', 'prénom', 'nombre'],
  familyName: [
    'family name',
    'last name',
    'surname',
    'nachname',
    'efternavn',
    'efternamn',
    'nom',
    'apellidos',
  ],
  email: ['email', 'mail', 'email address', 'e-mail-adresse', 'courriel', 'correo'],
  phone: ['phone', 'phone number', 'mobile', 'telephone', 'telefon', 'mobil', 'téléphone', 'teléfono'],
  bornOn: [
    'born on',
    'birth date',
    'date of birth',
    'birthday',
    'geburtsdatum',
    'fødselsdato',
    'födelsedatum',
  ],
  tags: ['tags', 'groups', 'schlagworte', 'gruppen'],
  note: ['note', 'notes', 'remark', 'notiz', 'bemerkung'],
  doNotContact: ['do not contact', 'no contact', 'nicht kontaktieren'],
} as const;

export type ImportField = keyof typeof importFields;
export const importFieldNames = Object.keys(importFields) as ImportField[];
export const requiredFields: readonly ImportField[] = ['givenName', 'familyName'];

const plain = (header: string): string => header.toLowerCase().replaceAll(/[^\p{L}\p{N}]/gu, '');

/** Which header seems to say what; each is taken once. */
export function suggestColumns(headers: readonly string[]): Partial<Record<ImportField, string>> {
  const columns: Partial<Record<ImportField, string>> = {};
  for (const field of importFieldNames) {
    const usual = new Set([plain(field), ...importFields[field].map(plain)]);
    const taken = Object.values(columns);
    const header = headers.find((one) => usual.has(plain(one)) && !taken.includes(one));
    if (header !== undefined) columns[field] = header;
  }
  return columns;
}
