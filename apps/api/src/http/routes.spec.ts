import { describe, expect, it } from '@jest/globals';
import { Controller, Get, Module, Post } from '@nestjs/common';
import { DiscoveryModule, NestFactory } from '@nestjs/core';
import { FastifyAdapter } from '@nestjs/platform-fastify';
import { Describe, Operation } from './documentation.js';
import { PermissionsIncomplete, requireComplete, Routes } from './routes.js';

@Controller('declared')
@Operation('answerOfferPages')
class Declared {
  @Get()
  page(): void {}

  @Post()
  @Describe({ id: 'createClient', summary: 'Take on' })
  own(): void {}

  helper(): void {}
}

@Controller('forgotten')
class Forgotten {
  @Get()
  silent(): void {}
}

@Module({ imports: [DiscoveryModule], controllers: [Forgotten], providers: [Routes] })
class WithForgotten {}

describe('the routes and the table of permissions', () => {
  it('are complete when every route names a row and every row a route', () => {
    expect(() => {
      requireComplete([Declared], ['answerOfferPages', 'createClient']);
    }).not.toThrow();
  });

  it('are not when a route names no row', () => {
    expect(() => {
      requireComplete([Declared, Forgotten], ['answerOfferPages', 'createClient']);
    }).toThrow(new PermissionsIncomplete(['Forgotten.silent'], []));
    expect(() => {
      requireComplete([Declared], ['createClient']);
    }).toThrow(new PermissionsIncomplete(['Declared.page'], []));
  });

  it('are not when a row has no route', () => {
    expect(() => {
      requireComplete([Declared], ['answerOfferPages', 'createClient', 'gone']);
    }).toThrow(new PermissionsIncomplete([], ['gone']));
  });

  it('keep the application from starting while they are not', async () => {
    const app = await NestFactory.create(WithForgotten, new FastifyAdapter(), {
      logger: false,
      abortOnError: false,
    });
    await expect(app.init()).rejects.toThrow('Forgotten.silent names no row');
  });
});
