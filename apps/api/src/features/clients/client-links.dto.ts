import { ApiProperty } from '@nestjs/swagger';
import { clientLinkKinds, type ClientLinkKind } from '@studio/database';
import { EnumField, UuidField } from '../../http/fields.js';

const kinds = Object.keys(clientLinkKinds) as ClientLinkKind[];

export class LinkClientRequest {
  @UuidField()
  otherClientId: string;

  @EnumField(kinds, { description: 'What the other one is to this client.' })
  kind: ClientLinkKind;
}

export class ClientLinkResponse {
  @ApiProperty({ format: 'uuid' })
  id: string;

  @ApiProperty({ enum: kinds, description: 'What the other one is to this client.' })
  kind: ClientLinkKind;

  @ApiProperty({ format: 'uuid' })
  otherClientId: string;

  @ApiProperty({ example: 'Ivo Ferreira' })
  otherName: string;
}
