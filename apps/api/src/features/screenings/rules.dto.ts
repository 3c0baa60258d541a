import { ApiProperty } from '@nestjs/swagger';
import { routes, rules, ruleSetVersion, type Route, type Rule } from '@studio/clinical-flags';
import type { RuleSetSignOff } from '@studio/database';
import { DayField, TextField } from '../../http/fields.js';
import { PermissionResponse } from './screenings.dto.js';

export class SignOffRequest {
  @TextField({
    max: 20,
    description: 'The version that was signed: the one in use.',
    example: ruleSetVersion,
  })
  ruleSetVersion: string;

  @TextField({ max: 200, example: 'Dr A. Holm' })
  clinicianName: string;

  @TextField({ max: 100, description: "The clinician's registration, as told.", example: 'reg. 00000' })
  registration: string;

  @DayField({ description: 'The day on the signed page.', example: '2026-03-02' })
  signedOn: string;
}

export class RuleResponse {
  @ApiProperty({ example: 'calf-pain-on-walking' })
  id: string;

  @ApiProperty({ example: 1 })
  version: number;

  @ApiProperty({ example: 'artery' })
  area: string;

  @ApiProperty({ enum: routes })
  route: Route;

  @ApiProperty({ type: PermissionResponse })
  permission: PermissionResponse;

  @ApiProperty({ example: 'Leg pain on ordinary walking: GP, asking for a vascular opinion.' })
  messageForStaff: string;

  @ApiProperty({ example: 'Please ask your doctor about the leg pain on walking.' })
  messageForClient: string;

  @ApiProperty({ example: 'A vascular assessment, recorded as a clearance.' })
  wouldChange: string;

  @ApiProperty({ enum: ['guideline', 'study', 'expert opinion', 'common practice'] })
  strength: string;

  @ApiProperty({ example: 'NICE CG95' })
  source: string;

  static of({ source, ...rule }: Rule): RuleResponse {
    const { id, version, area, route, permission, messageForStaff, messageForClient, wouldChange } = rule;
    return {
      ...{ id, version, area, route, permission, messageForStaff, messageForClient, wouldChange },
      strength: source.strength,
      source: source.citation,
    };
  }
}

export class SignOffResponse {
  @ApiProperty({ example: ruleSetVersion })
  ruleSetVersion: string;

  @ApiProperty({ example: 'Dr A. Holm' })
  clinicianName: string;

  @ApiProperty({ example: 'reg. 00000' })
  registration: string;

  @ApiProperty({ format: 'date', example: '2026-03-02' })
  signedOn: string;

  @ApiProperty({ format: 'date-time', example: '2026-03-02T09:00:00.000Z' })
  recordedAt: string;

  static of(row: RuleSetSignOff): SignOffResponse {
    const { clinicianName, registration, signedOn, createdAt } = row;
    return {
      ...{ ruleSetVersion: row.ruleSetVersion, clinicianName, registration, signedOn },
      recordedAt: createdAt.toISOString(),
    };
  }
}

export class RuleSetResponse {
  @ApiProperty({ example: ruleSetVersion })
  version: string;

  @ApiProperty({ description: 'Whether a clinician signed this version, as this studio recorded it.' })
  isSigned: boolean;

  @ApiProperty({ type: [SignOffResponse], description: 'Of every version, newest first.' })
  signOffs: SignOffResponse[];

  @ApiProperty({ type: [RuleResponse] })
  rules: RuleResponse[];

  static of(signOffs: readonly RuleSetSignOff[]): RuleSetResponse {
    return {
      version: ruleSetVersion,
      isSigned: signOffs.some((signOff) => signOff.ruleSetVersion === ruleSetVersion),
      signOffs: signOffs.map((row) => SignOffResponse.of(row)),
      rules: rules.map((rule) => RuleResponse.of(rule)),
    };
  }
}
