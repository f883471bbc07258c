// Asks the engine of a pressed site: node engine.mjs SITE. Fails with what went wrong.
import assert from "node:assert/strict";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import vm from "node:vm";

const site = process.argv[2];
const loads = [];
vm.runInThisContext(readFileSync(join(site, "search.js"), "utf8") + "\nglobalThis.traysideSearch = traysideSearch;");
const search = globalThis.traysideSearch;
search.load = async (name) => {
  loads.push(name);
  const file = join(site, "search", name + ".js");
  if (!existsSync(file)) throw new Error(file);
  vm.runInThisContext(readFileSync(file, "utf8"));
};

// Every page, from its shard.
const pages = [];
const real = globalThis.traysideSearch;
for (const file of readdirSync(join(site, "search")).filter((name) => name.startsWith("p-"))) {
  globalThis.traysideSearch = (_kind, _key, data) => pages.push(...data);
  vm.runInThisContext(readFileSync(join(site, "search", file), "utf8"));
}
globalThis.traysideSearch = real;
assert.ok(pages.length >= 2, "there are pages");

// Each page is found by its title, first.
const titles = pages.map((page) => page[2]);
for (const page of pages) {
  if (titles.filter((title) => title === page[2]).length > 1) continue;
  const found = await search.find(page[2], 20);
  assert.ok(found.whole, page[2]);
  const paths = found.hits.map((hit) => hit.path);
  assert.ok(paths.includes(page[1]), `${page[2]} is found`);
  if (search.words(search.fold(page[2])).length > 1) assert.equal(found.hits[0].path, page[1], `${page[2]} is the first`);
}

// Each block is found by its id and by its title, and leads to itself.
let blocks = 0;
for (const page of pages) {
  for (const [kind, anchor, title] of page[4]) {
    if (["page", "section", "rule"].includes(kind)) continue;
    const found = await search.find(title, 40);
    assert.ok(found.hits.some((hit) => hit.title === title), `${title} is found`);
    const byId = await search.find(anchor, 400);
    assert.ok(byId.hits.some((hit) => hit.path === page[1]), `${anchor} is found`);
    blocks += 1;
  }
}
assert.ok(blocks > 0, "there are blocks");

// Every word of every page finds it, also by its beginning, in capitals and with an accent more.
let asked = 0;
for (const page of pages) {
  const all = new Set(page[4].flatMap((entry) => search.words(search.fold(entry[2] + " " + entry[3]))));
  for (const word of all) {
    if (asked++ % 23 > 0) continue;
    const written = [word, word.toUpperCase(), word.normalize("NFD").replace(/^(\p{L})/u, "$1\u0301")];
    for (const one of written) {
      const found = await search.find(one, 400);
      assert.ok(found.hits.some((hit) => hit.path === page[1]), `${one} finds ${page[1]}`);
    }
  }
}

// Hits show the words asked for.
const one = pages.find((page) => page[4].some((entry) => entry[3].length > 300));
const entry = one[4].find((entry) => entry[3].length > 300);
const late = search.words(search.fold(entry[3])).filter((word) => word.length > 2).pop();
for (const hit of (await search.find(late, 400)).hits) {
  const marked = hit.snippet.some((piece) => piece.hit && search.fold(piece.text).startsWith(late));
  assert.ok(marked || search.fold(hit.title).includes(late), `${late} is marked`);
  const length = hit.snippet.reduce((sum, piece) => sum + piece.text.length, 0);
  assert.ok(length < 250, `${length}`);
}

// Strange questions.
for (const text of ["", "   ", "—", "__proto__", "constructor", "</script>", "\ud800", "a".repeat(10000), "x ".repeat(5000), "\\", "写"]) {
  await search.find(text, 20);
}
assert.equal((await search.find("zzzzqqqq", 20)).pages, 0);
const some = await search.find(pages[0][2].split(" ")[0] + " zzzzqqqq", 20);
assert.ok(!some.whole && some.pages > 0, "some of the words");

// Nothing is loaded twice.
assert.equal(new Set(loads).size, loads.length);
console.log(`${pages.length} pages, ${blocks} blocks, ${asked} words, ${loads.length} parts loaded`);
