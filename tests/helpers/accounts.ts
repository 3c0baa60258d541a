import { dataOf, type components, type StudioClient } from '@studio/api-client';

type Schemas = components['schemas'];
export type AccountDocument = Schemas['DocumentResponse'];

/** A studio that sells in euro at prices that hold the tax, with two rates. */
export async function setUpAccounts(
  owner: StudioClient,
  settings: Partial<Schemas['CreateAccountSettingsRequest']> = {},
): Promise<void> {
  await dataOf(
    owner.POST('/v1/account-settings', {
      body: {
        ...{ currency: 'EUR', taxIncluded: true, sellerName: 'Quayside Fitting' },
        ...{ sellerAddress: 'Quay 4\n8000 Harbour', sellerTaxNumber: 'XX-00000000' },
        ...settings,
      },
    }),
  );
  for (const [taxClass, taxRatePercent] of [
    ['standard', '25'],
    ['reduced', '12'],
  ] as const) {
    const body = { taxClass, taxRatePercent, validFrom: '2020-01-01' };
    await dataOf(owner.POST('/v1/tax-rates', { body }));
  }
}

/** A line that is in no catalogue. */
export const freeLine = (
  unitPriceMinor: number,
  more: Partial<Schemas['LineRequest']> = {},
): Schemas['LineRequest'] => ({
  description: 'Bar tape, fitted',
  unitPriceMinor,
  taxClass: 'standard',
  ...more,
});

export const draftReceipt = (
  desk: StudioClient,
  content: Omit<Schemas['CreateDocumentRequest'], 'kind'>,
): Promise<AccountDocument> =>
  dataOf(desk.POST('/v1/account-documents', { body: { kind: 'receipt', ...content } }));

export const issueDocument = (desk: StudioClient, { id, version }: { id: string; version: number }) =>
  desk.POST('/v1/account-documents/{documentId}/issue', {
    params: { path: { documentId: id }, header: { 'If-Match': `"${version}"` } },
  });

export async function issuedReceipt(
  desk: StudioClient,
  content: Omit<Schemas['CreateDocumentRequest'], 'kind'>,
): Promise<AccountDocument> {
  return dataOf(issueDocument(desk, await draftReceipt(desk, content)));
}

export const readDocument = (desk: StudioClient, documentId: string): Promise<AccountDocument> =>
  dataOf(desk.GET('/v1/account-documents/{documentId}', { params: { path: { documentId } } }));
