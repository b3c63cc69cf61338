// Static server for the built page, on this machine alone. Also used by the tests.
//   node web/serve.mjs [--port N] FOLDER
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, join, normalize, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** @type {Record<string, string>} */
const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.wasm': 'application/wasm',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
  '.xml': 'application/xml; charset=utf-8',
  '.zip': 'application/zip',
};

/** What a server can add to the page's own policy; docs/embedding.md "On a server". */
const HEADERS = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Permissions-Policy': 'camera=(), microphone=(), geolocation=()',
};

/**
 * The file that a request path stands for, or null where it leaves the folder or is malformed.
 * @param {string} root absolute folder
 * @param {string} target path and query of the request
 */
function fileFor(root, target) {
  try {
    const path = decodeURIComponent(new URL(target, 'http://127.0.0.1').pathname);
    if (path.includes('\0')) return null;
    const file = normalize(join(root, path.endsWith('/') ? `${path}index.html` : path));
    return file.startsWith(root + sep) ? file : null;
  } catch {
    return null;
  }
}

/**
 * Serves `folder` on 127.0.0.1. Port 0 takes any free one. Rejects where the port is taken.
 * @param {string} folder
 * @param {number} [port]
 * @param {Record<string, string>} [extraHeaders] added to every answer, e.g. a content security policy
 * @param {Record<string, string>} [types] by the end of a name; all else is bytes of no type
 * @returns {Promise<{port: number, url: string, close: () => Promise<void>}>}
 */
export function serve(folder, port = 0, extraHeaders = {}, types = TYPES) {
  const root = resolve(folder);
  const server = createServer(async (request, response) => {
    const headers = { 'Cache-Control': 'no-store', ...HEADERS, ...extraHeaders };
    /** @param {number} status @param {string} text */
    const plain = (status, text) => {
      response.writeHead(status, { ...headers, 'Content-Type': 'text/plain; charset=utf-8' });
      response.end(`${text}\n`);
    };
    if (request.method !== 'GET' && request.method !== 'HEAD') return plain(405, 'GET and HEAD only');
    const file = fileFor(root, request.url ?? '/');
    const found = file === null ? null : await stat(file).catch(() => null);
    if (file === null || !found?.isFile()) return plain(404, 'not found');
    const type = types[extname(file)] ?? 'application/octet-stream';
    response.writeHead(200, { ...headers, 'Content-Type': type, 'Content-Length': found.size });
    if (request.method === 'HEAD') return response.end();
    createReadStream(file).on('error', () => response.destroy()).pipe(response);
  });
  return new Promise((done, fail) => {
    server.once('error', fail);
    server.listen(port, '127.0.0.1', () => {
      const address = server.address();
      const bound = typeof address === 'object' && address ? address.port : port;
      done({
        port: bound,
        url: `http://127.0.0.1:${bound}/`,
        close: () => new Promise((closed) => {
          server.close(() => closed());
          server.closeAllConnections();
        }),
      });
    });
  });
}

/** @param {string[]} args */
async function main(args) {
  const at = args.indexOf('--port');
  const port = at < 0 ? 8080 : Number(args[at + 1]);
  const folder = args.filter((_, i) => at < 0 || (i !== at && i !== at + 1))[0] ?? 'build/site';
  if (!(await stat(join(folder, 'index.html')).catch(() => null))) {
    console.error(`error: there is no page in ${folder}. Build it with ./web/serve.sh --build-only`);
    process.exit(1);
  }
  try {
    const { url } = await serve(folder, port);
    console.log(`The lesson is at ${url} (Ctrl+C stops it)`);
  } catch (error) {
    const code = /** @type {NodeJS.ErrnoException} */ (error).code;
    if (code === 'EADDRINUSE') console.error(`error: port ${port} on 127.0.0.1 is taken. Choose another with --port`);
    else if (code === 'EACCES') console.error(`error: port ${port} needs root. Choose one above 1023 with --port`);
    else console.error(`error: the server could not start: ${String(error)}`);
    process.exit(1);
  }
}

if (process.argv[1] && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  await main(process.argv.slice(2));
}
