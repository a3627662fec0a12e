// Builds the page: node build.mjs FOLDER_OF_THE_NPM_PACKAGE OUT. Plain files, each also compressed,
// and a service worker that knows them by name.
import { createHash } from "node:crypto";
import { cp, mkdir, readdir, readFile, rm, symlink, writeFile } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants } from "node:zlib";
import { build, transform } from "esbuild";

const [libfeed, out] = process.argv.slice(2).map((one) => resolve(one));
if (!libfeed || !out) throw new Error("node build.mjs FOLDER_OF_THE_NPM_PACKAGE OUT");
const here = dirname(fileURLToPath(import.meta.url));
const source = join(here, "src");

const settings = {
  bundle: true,
  format: "esm",
  target: "es2022",
  minify: true,
  legalComments: "none",
  outdir: out,
  external: ["node:fs/promises"],
  nodePaths: [join(here, "node_modules")],
  logLevel: "warning",
};

// Found by name, by the bundler and by the checker of types alike.
const link = join(here, "node_modules", "libfeed");
await rm(link, { recursive: true, force: true });
await symlink(libfeed, link, "dir");

await rm(out, { recursive: true, force: true });
await mkdir(out, { recursive: true });
await build({
  ...settings,
  splitting: true,
  chunkNames: "shared-[hash]",
  entryPoints: [join(source, "main.ts"), join(source, "more.ts"), join(source, "trial.ts")],
});
const everyPage = await readFile(join(source, "every_page.html"), "utf8");
for (const name of await readdir(source)) {
  if (name.endsWith(".ts") || name === "every_page.html") continue;
  if (name.endsWith(".html")) {
    const page = await readFile(join(source, name), "utf8");
    await writeFile(join(out, name), page.replace("    <!-- every page -->\n", () => everyPage));
  } else if (name.endsWith(".css")) {
    const style = await readFile(join(source, name), "utf8");
    const { code } = await transform(style, { loader: "css", minify: true, target: settings.target });
    await writeFile(join(out, name), code);
  } else await cp(join(source, name), join(out, name));
}
await cp(join(libfeed, "libfeed.wasm"), join(out, "libfeed.wasm"));

const files = (await readdir(out)).sort();
const hash = createHash("sha256");
for (const name of files) hash.update(name).update(await readFile(join(out, name)));
await build({
  ...settings,
  entryPoints: [join(source, "worker.ts")],
  define: {
    PAGE_VERSION: JSON.stringify(`page-${hash.digest("hex").slice(0, 12)}`),
    PAGE_FILES: JSON.stringify(["./", ...files]),
  },
});

let wire = 0;
for (const name of await readdir(out)) {
  const small = brotliCompressSync(await readFile(join(out, name)), {
    // Distances in steps of eight suit the module's records: 2.8 kB less.
    params: {
      [constants.BROTLI_PARAM_QUALITY]: 11,
      [constants.BROTLI_PARAM_NPOSTFIX]: 3,
      [constants.BROTLI_PARAM_NDIRECT]: 4 << 3,
    },
  });
  wire += small.length;
  await writeFile(join(out, `${name}.br`), small);
}
console.log(`${out}: ${files.length + 1} files, ${Math.round(wire / 1000)} kB over the wire`);
