import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { TenantContext } from '@studio/database';
import { Describe } from '../../http/documentation.js';
import { IfMatch } from '../../http/preconditions.js';
import { Ctx } from '../../http/request-context.js';
import { idPipe } from '../../http/validation.pipe.js';
import {
  AssignTaskRequest,
  ListTasksQuery,
  SnoozeTaskRequest,
  TaskChangeResponse,
  TaskPage,
  TaskResponse,
} from './tasks.dto.js';
import { TasksService } from './tasks.service.js';

/** 409 `tasks.not-possible` names the state and what it allows. */
const change = { returns: TaskResponse, problems: [404, 409], ifMatch: true } as const;

@ApiTags('Tasks')
@Controller('v1/tasks')
export class TasksController {
  constructor(private readonly tasks: TasksService) {}

  @Get()
  @Describe({
    id: 'listTasks',
    summary: 'The inbox: what somebody of the studio has to see to, most pressing first',
    description: 'Everybody reads the inboxes of their own roles, an owner those of all.',
    returns: TaskPage,
    problems: [400],
  })
  list(@Ctx() ctx: TenantContext, @Query() query: ListTasksQuery): Promise<TaskPage> {
    return this.tasks.list(ctx, query);
  }

  @Get(':taskId')
  @Describe({ id: 'getTask', summary: 'One task', returns: TaskResponse, problems: [404], versioned: true })
  get(@Ctx() ctx: TenantContext, @Param('taskId', idPipe) id: string): Promise<TaskResponse> {
    return this.tasks.get(ctx, id);
  }

  @Get(':taskId/history')
  @Describe({
    id: 'getTaskHistory',
    summary: 'Who did what with it, and when',
    returns: [TaskChangeResponse],
    problems: [404],
  })
  history(@Ctx() ctx: TenantContext, @Param('taskId', idPipe) id: string): Promise<TaskChangeResponse[]> {
    return this.tasks.history(ctx, id);
  }

  @Post(':taskId/completion')
  @Describe({ ...change, id: 'finishTask', summary: 'It is done' })
  finish(
    @Ctx() ctx: TenantContext,
    @Param('taskId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<TaskResponse> {
    return this.tasks.finish(ctx, id, version);
  }

  @Post(':taskId/snooze')
  @Describe({
    ...change,
    id: 'snoozeTask',
    summary: 'Not now: it comes back by itself',
    problems: [400, 404, 409],
  })
  snooze(
    @Ctx() ctx: TenantContext,
    @Param('taskId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: SnoozeTaskRequest,
  ): Promise<TaskResponse> {
    return this.tasks.snooze(ctx, id, version, request);
  }

  @Post(':taskId/assignment')
  @Describe({
    ...change,
    id: 'assignTask',
    summary: 'Give it to a person of the role, or to nobody in particular',
    problems: [400, 404, 409, 422],
  })
  assign(
    @Ctx() ctx: TenantContext,
    @Param('taskId', idPipe) id: string,
    @IfMatch() version: number,
    @Body() request: AssignTaskRequest,
  ): Promise<TaskResponse> {
    return this.tasks.assign(ctx, id, version, request);
  }

  @Post(':taskId/reopening')
  @Describe({ ...change, id: 'reopenTask', summary: 'It was done or snoozed by mistake' })
  reopen(
    @Ctx() ctx: TenantContext,
    @Param('taskId', idPipe) id: string,
    @IfMatch() version: number,
  ): Promise<TaskResponse> {
    return this.tasks.reopen(ctx, id, version);
  }
}
