import { createRequire } from 'node:module';
import express, { Router } from 'express';
import { openApiDocument } from '../../contract/openapi/document.ts';
import { refuseOtherMethods } from '../guards/refuse-other-methods.ts';
import { json } from '../handle.ts';
import type { Service } from '../service.ts';

const FOLDER = createRequire(import.meta.url)('swagger-ui-dist').getAbsoluteFSPath() as string;

const HTML = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Sward: the interface</title>
<link rel="stylesheet" href="/api/docs/files/swagger-ui.css">
</head>
<body>
<div id="docs"></div>
<script src="/api/docs/files/swagger-ui-bundle.js"></script>
<script src="/api/docs/start.js"></script>
</body>
</html>
`;

/** No validator: the document must not be sent anywhere. */
const START = `window.SwaggerUIBundle({ url: '/api/openapi.json', dom_id: '#docs', validatorUrl: null, deepLinking: true });
`;

/** `/api/openapi.json`: the description of the interface. */
export const openApiRouter = ({ deps }: Service): Router => {
  const document = openApiDocument(deps.version);
  const router = Router();
  router.get(
    '/',
    json(() => document),
  );
  return refuseOtherMethods(router);
};

/** `/api/docs`: the same for people. */
export const docsRouter = (_service: Service): Router => {
  const router = Router();
  router.use('/files', express.static(FOLDER, { index: false, fallthrough: true }));
  router.get('/', (_request, response) => void response.type('html').send(HTML));
  router.get('/start.js', (_request, response) => void response.type('js').send(START));
  return refuseOtherMethods(router);
};
