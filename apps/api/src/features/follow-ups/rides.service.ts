import { Inject, Injectable } from '@nestjs/common';
import {
  recordAudit,
  rideFileType,
  studioClock,
  TenantTransaction,
  type FollowUp,
  type TenantContext,
  type TenantToken,
} from '@studio/database';
import { fileKeys, type ObjectStorage } from '@studio/storage';
import type { EntityManager } from 'typeorm';
import { StorageToken } from '../../http/http.module.js';
import { NotFound } from '../../http/problem.js';
import type { UploadedFile } from '../../http/upload.js';
import { requireConsent } from '../clients/index.js';
import { announceFile, discardFile, insertFile, sha256Of } from '../files/index.js';
import { askedOf, asksForRide } from './asked-of.js';
import { readRideSince } from './ride-reading.js';
import { findRide, insertRide, type Ride } from './rides.queries.js';
import { countsFrom } from './schedule-follow-ups.js';
import { tokenOf, usable } from './usable-link.js';

export interface ShownRide {
  readonly studio: string;
  readonly ride: Ride | null;
}

/** A ride recording a client sends with the answers: one for each follow-up, until they are handed in. */
@Injectable()
export class RidesService {
  constructor(
    private readonly transaction: TenantTransaction,
    @Inject(StorageToken) private readonly storage: ObjectStorage,
  ) {}

  /** @throws NotFound where none is asked for */
  show(link: string): Promise<ShownRide> {
    return this.visit(tokenOf(link), async (tx, { studioId, id }) => {
      const { name: studio } = await studioClock(tx, studioId);
      return { studio, ride: await findRide(tx, { studioId, followUpId: id }) };
    });
  }

  /**
   * Before anything is read of what somebody sends.
   *
   * @throws NotFound, ConsentMissing
   */
  async requireWanted(link: string): Promise<void> {
    await this.visit(tokenOf(link), (tx, { studioId, clientId }) =>
      requireConsent(tx, { studioId, clientId }, 'health_data'),
    );
  }

  /**
   * Keep a recording in the place of the one sent before.
   *
   * @throws RideRefused; nothing is kept then
   */
  async keep(link: string, { content, fileName }: UploadedFile, requestId: string): Promise<void> {
    const token = tokenOf(link);
    const { studioId } = token;
    const between = await this.visit(token, async (tx, followUp) => ({
      fit: await countsFrom(tx, { ...followUp, fromAppointmentId: null }),
      now: (await studioClock(tx, studioId)).now,
    }));
    const reading = await readRideSince(content, between);
    const fileId = await this.transaction.run(token, (tx) => announceFile(tx, studioId));
    await this.storage.put(fileKeys(studioId, fileId).content, content, rideFileType);
    await this.visit(token, async (tx, { id: followUpId, clientId }) => {
      await requireConsent(tx, { studioId, clientId }, 'health_data');
      await discard(tx, studioId, followUpId);
      await insertFile(tx, {
        ...{ studioId, id: fileId, clientId, fitSessionId: null, bikeId: null, shoeId: null, caption: null },
        ...{ fileName, mediaType: rideFileType, bytes: content.length, widthPx: null, heightPx: null },
        ...{ sha256: sha256Of(content), uploadedBy: null },
      });
      await insertRide(tx, { studioId, followUpId, fileId, ...reading });
      await recordAudit(tx, contextOf(studioId, requestId), {
        action: 'follow-ups.send-ride',
        recordId: followUpId,
      });
    });
  }

  async remove(link: string, requestId: string): Promise<void> {
    const token = tokenOf(link);
    const { studioId } = token;
    await this.visit(token, async (tx, { id: followUpId }) => {
      await discard(tx, studioId, followUpId);
      await recordAudit(tx, contextOf(studioId, requestId), {
        action: 'follow-ups.take-back-ride',
        recordId: followUpId,
      });
    });
  }

  private visit<T>(
    token: TenantToken,
    work: (tx: EntityManager, followUp: FollowUp) => Promise<T>,
  ): Promise<T> {
    return this.transaction.run(token, async (tx) => {
      const followUp = await usable(tx, token);
      if (!asksForRide((await askedOf(tx, followUp)).set)) throw new NotFound();
      return work(tx, followUp);
    });
  }
}

async function discard(tx: EntityManager, studioId: string, followUpId: string): Promise<void> {
  const ride = await findRide(tx, { studioId, followUpId });
  // What was read from it goes with its file.
  if (ride) await discardFile(tx, { studioId, id: ride.fileId });
}

const contextOf = (studioId: string, requestId: string): TenantContext => ({
  ...{ studioId, userId: null, roles: [], requestId },
});
