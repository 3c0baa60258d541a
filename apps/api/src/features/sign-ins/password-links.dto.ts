import { EmailField, TextField } from '../../http/fields.js';

export class PasswordResetRequest {
  @TextField({ max: 40, description: "The studio's handle.", example: 'harbour-lane' })
  studio: string;

  @EmailField({ example: 'tomas@harbour-lane.example' })
  email: string;
}

export class ChoosePasswordRequest {
  @TextField({
    max: 200,
    description: 'At least 15 characters; no rule about which, but none that is guessed first.',
    example: 'five herons behind the lock',
  })
  password: string;
}
