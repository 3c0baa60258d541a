import { describe, expect, it } from '@jest/globals';
import { Controller, Get, Post } from '@nestjs/common';
import { Test } from '@nestjs/testing';
import { DiscoveryModule } from '@nestjs/core';
import { AccessNotDeclared, AccessTable, rowsOf } from './access-table.js';
import { Allow, InPerson, Open } from './access.js';
import { Describe } from './documentation.js';
import { HealthData } from './read-log.js';

@Controller('declared')
@Allow('owner')
class Declared {
  @Get()
  @HealthData()
  @Describe({ id: 'readDeclared', summary: 'Read' })
  read(): void {}

  @Post()
  @Open()
  @InPerson()
  open(): void {}

  helper(): void {}
}

@Controller('forgotten')
class Forgotten {
  @Get()
  @Open()
  said(): void {}

  @Get('x')
  @Describe({ id: 'readForgotten', summary: 'Read' })
  silent(): void {}
}

describe('the table of who may do what', () => {
  it('has a row of every route, a method’s word before its class’s', () => {
    expect(rowsOf([Declared])).toEqual([
      ...[{ operation: 'readDeclared', method: 'GET', access: ['owner'] }].map((row) => ({
        ...row,
        inPersonOnly: false,
        readsHealthData: true,
      })),
      {
        operation: 'Declared.open',
        method: 'POST',
        access: 'anyone',
        inPersonOnly: true,
        readsHealthData: false,
      },
    ]);
  });

  it('names the route that says nothing', () => {
    expect(() => rowsOf([Declared, Forgotten])).toThrow(new AccessNotDeclared(['readForgotten']));
  });

  it('keeps the application from starting with such a route', async () => {
    const module = await Test.createTestingModule({
      imports: [DiscoveryModule],
      controllers: [Forgotten],
      providers: [AccessTable],
    }).compile();
    await expect(module.init()).rejects.toThrow('readForgotten');
  });
});
