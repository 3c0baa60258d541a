import { DataSource, type EntityMetadata } from 'typeorm';
import { entities } from './data-source.js';

class Unconnected extends DataSource {
  async metadatas(): Promise<EntityMetadata[]> {
    await this.buildMetadatas();
    return this.entityMetadatas;
  }
}

/** Tables and columns as the entities tell of them, without a database. */
export const entityMetadatas = (): Promise<EntityMetadata[]> =>
  new Unconnected({ type: 'postgres', entities }).metadatas();
