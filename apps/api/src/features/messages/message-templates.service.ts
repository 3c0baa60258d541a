import { Injectable } from '@nestjs/common';
import { recordAudit, studioClock, TenantTransaction, violates, type TenantContext } from '@studio/database';
import { messageTemplateNames, type MessageTemplateName } from '@studio/job-contracts';
import {
  checkText,
  chooseText,
  languages,
  messageTemplates,
  placeholdersOf,
  preview,
  type MessageText,
  type OwnText,
} from '@studio/messages';
import { InvalidRequest, NotFound, StaleVersion } from '../../http/problem.js';
import type {
  MessageTemplateResponse,
  PreviewMessageRequest,
  PreviewResponse,
  RestoreMessageTextRequest,
  WriteMessageTextRequest,
} from './message-templates.dto.js';
import { findSettings } from './message-settings.queries.js';
import { insertText, listOwnTexts } from './message-texts.queries.js';

@Injectable()
export class MessageTemplatesService {
  constructor(private readonly transaction: TenantTransaction) {}

  async list(ctx: TenantContext): Promise<MessageTemplateResponse[]> {
    const own = await this.transaction.read(ctx, (sql) => listOwnTexts(sql, ctx.studioId));
    return messageTemplateNames.map((name) => toResponse(name, own));
  }

  async get(ctx: TenantContext, name: string): Promise<MessageTemplateResponse> {
    const template = nameOf(name);
    return toResponse(template, await this.transaction.read(ctx, (sql) => listOwnTexts(sql, ctx.studioId)));
  }

  async write(
    ctx: TenantContext,
    name: string,
    { language, subject, body }: WriteMessageTextRequest,
  ): Promise<MessageTemplateResponse> {
    const template = nameOf(name);
    check(template, { subject, body });
    return this.nextVersion(ctx, { template, language, subject, body });
  }

  async restore(
    ctx: TenantContext,
    name: string,
    { language }: RestoreMessageTextRequest,
  ): Promise<MessageTemplateResponse> {
    return this.nextVersion(ctx, { template: nameOf(name), language, subject: null, body: null });
  }

  async preview(ctx: TenantContext, name: string, request: PreviewMessageRequest): Promise<PreviewResponse> {
    const template = nameOf(name);
    return this.transaction.run(ctx, async (tx) => {
      const settings = await findSettings(tx, ctx.studioId);
      const own = (await listOwnTexts(tx, ctx.studioId)).filter((text) => text.template === template);
      const inForce = chooseText(messageTemplates[template], request.language ?? settings.language, own);
      const { subject = inForce.subject, body = inForce.body } = request;
      check(template, { subject, body });
      const { timeZone } = await studioClock(tx, ctx.studioId);
      const shown = preview(messageTemplates[template], { ...inForce, subject, body }, timeZone);
      return { language: inForce.language, subject: shown.subject, text: shown.text, html: shown.html };
    });
  }

  private async nextVersion(
    ctx: TenantContext,
    row: Omit<Parameters<typeof insertText>[1], 'studioId' | 'createdBy'>,
  ): Promise<MessageTemplateResponse> {
    const { studioId } = ctx;
    try {
      return await this.transaction.runOnce(ctx, async (tx) => {
        const id = await insertText(tx, { ...row, studioId, createdBy: ctx.userId as string });
        const action = row.subject === null ? 'message-texts.restore' : 'message-texts.write';
        await recordAudit(tx, ctx, { action, recordId: id, fields: [row.template, row.language] });
        return toResponse(row.template, await listOwnTexts(tx, studioId));
      });
    } catch (error) {
      if (violates(error, 'message_texts_version_once')) throw new StaleVersion();
      throw error;
    }
  }
}

function nameOf(name: string): MessageTemplateName {
  const known = messageTemplateNames.find((one) => one === name);
  if (known === undefined) throw new NotFound();
  return known;
}

/** @throws InvalidRequest naming every problem of the text */
function check(template: MessageTemplateName, text: MessageText): void {
  const problems = checkText(messageTemplates[template], text);
  if (problems.length > 0) throw new InvalidRequest(problems.map((problem) => ({ ...problem })));
}

function toResponse(
  name: MessageTemplateName,
  own: readonly (OwnText & { template: MessageTemplateName })[],
): MessageTemplateResponse {
  const template = messageTemplates[name];
  const { purpose, to, unasked, byPhone } = template;
  const ofTemplate = own.filter((text) => text.template === name);
  return {
    ...{ name, purpose, to, unasked, byPhone },
    placeholders: Object.entries(placeholdersOf(template)).map(([placeholder, { required, ...rest }]) => ({
      name: placeholder,
      ...rest,
      required: required === true,
    })),
    texts: languages.map((language) => chooseText(template, language, ofTemplate)),
  };
}
