// Serves the built page from a folder and nothing else: node serve.mjs FOLDER [PORT].
import { createReadStream } from "node:fs";
import { access } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, resolve } from "node:path";

const folder = resolve(process.argv[2] ?? ".");
const wanted = Number(process.argv[3] ?? 8000);
const types = {
  ".css": "text/css",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

const server = createServer(async (request, answer) => {
  const path = new URL(request.url ?? "/", "http://localhost").pathname;
  const name = path === "/" ? "index.html" : path.slice(1);
  const type = types[extname(name)];
  // Names only, no folders: nothing above the page can be asked for.
  if (!type || !/^[\w.-]+$/.test(name)) return answer.writeHead(404).end();
  const compressed = /\bbr\b/.test(String(request.headers["accept-encoding"] ?? ""));
  const headers = { "content-type": type, "cache-control": "no-cache" };
  for (const ending of compressed ? [".br", ""] : [""]) {
    const file = join(folder, name + ending);
    try {
      await access(file);
    } catch {
      continue;
    }
    if (ending) headers["content-encoding"] = "br";
    answer.writeHead(200, headers);
    return createReadStream(file).pipe(answer);
  }
  return answer.writeHead(404).end();
});
server.listen(wanted, "127.0.0.1", () => {
  const { port } = server.address();
  console.log(`The page is at http://localhost:${port}/ (end with Ctrl-C)`);
});
