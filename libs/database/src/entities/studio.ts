import { Column, Entity, PrimaryColumn } from 'typeorm';

@Entity('studios')
export class Studio {
  @PrimaryColumn('uuid', { default: () => 'uuidv7()' })
  id: string;

  @Column('text')
  name: string;

  /** IANA name; the studio's local time is worked out from it. */
  @Column('text', { name: 'time_zone' })
  timeZone: string;

  @Column('timestamptz', { name: 'created_at', default: () => 'app_now()' })
  createdAt: Date;
}

/** What a person types to name the studio at sign-in: the only table that may be read without a studio. */
@Entity('studio_handles')
export class StudioHandle {
  @PrimaryColumn('text')
  handle: string;

  @Column('uuid', { name: 'studio_id' })
  studioId: string;
}
