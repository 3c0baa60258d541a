import { Body, Controller, Delete, Get, Param, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import { ApiKeyResponse, CreateApiKeyRequest, NewApiKeyResponse } from './api-keys.dto.js';
import { ApiKeysService } from './api-keys.service.js';

@ApiTags('My account')
@Controller('v1/api-keys')
export class ApiKeysController {
  constructor(private readonly keys: ApiKeysService) {}

  @Get()
  @Describe({
    id: 'listApiKeys',
    summary: 'Keys that let programs act as you; an owner sees those of everyone',
    returns: [ApiKeyResponse],
  })
  list(@Ctx() ctx: TenantContext): Promise<ApiKeyResponse[]> {
    return this.keys.list(ctx);
  }

  @Post()
  @Describe({
    id: 'createApiKey',
    summary: 'Make a key for a program',
    description: 'The key itself is in this answer and nowhere else, so a repeated request makes another.',
    returns: NewApiKeyResponse,
    status: 201,
    problems: [400, 422],
  })
  create(@Ctx() ctx: TenantContext, @Body() request: CreateApiKeyRequest): Promise<NewApiKeyResponse> {
    return this.keys.create(ctx, request);
  }

  @Delete(':apiKeyId')
  @Describe({
    id: 'revokeApiKey',
    summary: 'Take a key back; it ends within half a minute',
    problems: [404],
  })
  revoke(@Ctx() ctx: TenantContext, @Param('apiKeyId', idPipe) id: string): Promise<void> {
    return this.keys.revoke(ctx, id);
  }
}
