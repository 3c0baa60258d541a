import { ApiProperty } from '@nestjs/swagger';
import { IntField, TextField } from '../../http/fields.js';

export class CreateServiceRequest {
  @TextField({ max: 100, example: 'First fit' })
  name: string;

  @IntField({ min: 5, max: 600, example: 120 })
  durationMinutes: number;
}

export class ServiceResponse extends CreateServiceRequest {
  @ApiProperty({ format: 'uuid' })
  id: string;
}

export class CreateRoomRequest {
  @TextField({ max: 100, example: 'Fit bay' })
  name: string;
}

export class RoomResponse extends CreateRoomRequest {
  @ApiProperty({ format: 'uuid' })
  id: string;
}
