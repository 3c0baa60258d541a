import {
  Amendment,
  Bike,
  Client,
  FitSession,
  FitSheetRow,
  FollowUp,
  Measurement,
  MessageSettings,
  MotionRecording,
  Plan,
  Position,
  SessionAdvice,
  Shoe,
  studioClock,
  User,
} from '@studio/database';
import type {
  FitSheetFacts,
  MeasurementFacts,
  PlanFacts,
  PositionFacts,
  SheetLanguage,
} from '@studio/fit-sheet';
import { languageFor } from '@studio/messages';
import { findShoeWorks } from './shoe-works.queries.js';
import { positionFieldIds, type MeasurementKindId, type Motion } from '@studio/fit-math';
import { Temporal } from 'temporal-polyfill';
import { In, IsNull, Not, type EntityManager } from 'typeorm';

interface Key {
  studioId: string;
  id: string;
}

export function findFitSheet(tx: EntityManager, key: Key): Promise<FitSheetRow | null> {
  return tx.findOneBy(FitSheetRow, key);
}

/** @returns false when it was ready already */
export async function settleFitSheet(
  tx: EntityManager,
  { studioId, id }: Key,
  as: { state: 'ready'; figures: string[] } | { state: 'failed' },
): Promise<boolean> {
  const { affected } = await tx.update(
    FitSheetRow,
    { studioId, id, state: Not('ready') },
    { ...as, finishedAt: () => 'app_now()' },
  );
  return affected === 1;
}

export async function clientOf(tx: EntityManager, { studioId, id }: Key): Promise<string> {
  return (await tx.findOneByOrFail(FitSession, { studioId, id })).clientId;
}

/** The record of the session as it is now. */
export async function findFacts(tx: EntityManager, { studioId, id }: Key): Promise<FitSheetFacts> {
  const session = await tx.findOneByOrFail(FitSession, { studioId, id });
  const { clientId, bikeId, shoeId, fitterId } = session;
  const [studio, client, bike, shoe, fitter] = [
    await studioClock(tx, studioId),
    await tx.findOneByOrFail(Client, { studioId, id: clientId }),
    await tx.findOneByOrFail(Bike, { studioId, id: bikeId }),
    await tx.findOneByOrFail(Shoe, { studioId, id: shoeId }),
    await tx.findOneByOrFail(User, { studioId, id: fitterId }),
  ];
  const part = { where: { studioId, fitSessionId: id }, order: { id: 'ASC' } } as const;
  const positions = await tx.findBy(Position, { ...part.where, supersededAt: IsNull() });
  const followUps = await tx.findBy(FollowUp, { ...part.where, state: 'scheduled' });
  const day = (instant: Date): string =>
    Temporal.Instant.fromEpochMilliseconds(instant.getTime())
      .toZonedDateTimeISO(studio.timeZone)
      .toPlainDate()
      .toString();
  return {
    studio: studio.name,
    rider: `${client.givenName} ${client.familyName}`,
    fitter: fitter.displayName,
    bike,
    shoe,
    visitOn: day(session.createdAt),
    signedOn: session.signedAt && day(session.signedAt),
    contentHash: session.contentHash,
    found: positionAt(positions, 'found'),
    left: positionAt(positions, 'left'),
    measurements: newestOf(
      await tx.find(Measurement, {
        where: { ...part.where, withdrawnAt: IsNull() },
        order: { takenAt: 'ASC', id: 'ASC' },
      }),
      ({ kind, side }) => `${kind} ${side}`,
    ).map(toMeasurement),
    plans: newestOf(
      await tx.find(Plan, { ...part, where: { ...part.where, kind: 'cleat' } }),
      ({ side }) => side ?? '',
    ).flatMap(toPlan),
    shoeWorks: await findShoeWorks(tx, { studioId, fitSessionId: id }, day),
    footPitch: footPitchOf(await tx.find(MotionRecording, part)),
    nextOn: [...new Set(followUps.map(({ dueAt }) => day(dueAt)))].sort(),
    advice: (await tx.findOneBy(SessionAdvice, part.where))?.items ?? null,
    amendments: await amendmentsOf(tx, { studioId, id }, day),
  };
}

async function amendmentsOf(
  tx: EntityManager,
  { studioId, id }: Key,
  day: (instant: Date) => string,
): Promise<FitSheetFacts['amendments']> {
  const written = await tx.find(Amendment, { where: { studioId, fitSessionId: id }, order: { id: 'ASC' } });
  const writers = await tx.findBy(User, { studioId, id: In(written.map(({ writtenBy }) => writtenBy)) });
  const nameOf = new Map(writers.map((user) => [user.id, user.displayName]));
  return written.map(({ createdAt, writtenBy, text }) => ({
    ...{ on: day(createdAt), writtenBy: nameOf.get(writtenBy) ?? '', text },
  }));
}

/** What the rider reads, or else the language of the studio. */
export async function findLanguage(tx: EntityManager, { studioId, id }: Key): Promise<SheetLanguage> {
  const { clientId } = await tx.findOneByOrFail(FitSession, { studioId, id });
  const { language } = await tx.findOneByOrFail(Client, { studioId, id: clientId });
  const settings = await tx.findOneBy(MessageSettings, { studioId });
  return languageFor(language, languageFor(settings?.language ?? null, 'en'));
}

function positionAt(positions: readonly Position[], stage: Position['stage']): PositionFacts | null {
  const position = positions.find((item) => item.stage === stage);
  if (!position) return null;
  return {
    values: Object.fromEntries(positionFieldIds.map((id) => [id, position[id]])),
    methods: position.methods,
    hardware: { left: position.hardwareLeft, right: position.hardwareRight },
  };
}

/** The last of each, in the order of their first. */
const newestOf = <Row>(rows: readonly Row[], sort: (row: Row) => string): Row[] => [
  ...new Map(rows.map((row) => [sort(row), row])).values(),
];

function footPitchOf(recordings: readonly MotionRecording[]): FitSheetFacts['footPitch'] {
  return Object.fromEntries(
    recordings.flatMap(({ side, result }) => {
      const { footPitch } = result as Motion;
      return footPitch.kind === 'series' ? [[side, footPitch.readingsDeg]] : [];
    }),
  );
}

const toMeasurement = ({ kind, side, method, mean, error }: Measurement): MeasurementFacts => ({
  kind: kind as MeasurementKindId,
  ...{ side, method, mean, error },
});

/** Cleats are planned foot by foot. */
const toPlan = (row: Plan): PlanFacts[] =>
  row.side === null
    ? []
    : [
        {
          side: row.side,
          inputs: row.inputs as PlanFacts['inputs'],
          result: row.result as PlanFacts['result'],
          saddleOffsetMm: row.saddleOffsetMm,
          chosenWay: row.chosenOption,
          chosenBecause: row.chosenBecause,
        },
      ];
