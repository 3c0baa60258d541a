# One image for the API, the worker, the migrations and the mail catcher: the same code under another command.
FROM node:24-slim AS build
WORKDIR /app
COPY . .
RUN --mount=type=cache,target=/root/.npm \
    npm ci --no-audit --no-fund && npm run build && npm prune --omit=dev --no-audit --no-fund

FROM node:24-slim
ENV NODE_ENV=production
WORKDIR /app
COPY --from=build /app .
# A new volume takes its owner from the image.
RUN mkdir /files /backups && chown node:node /files /backups
USER node
CMD ["node", "apps/api/dist/bundle/main.mjs"]
