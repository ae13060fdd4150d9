import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import {
  InputError,
  loadScenarioFile,
  MOST_BYTES,
  parseScenario,
} from '../../../packages/sim-core/src/index.js';
import { SOUND } from './brokenScenarios.js';

const folder = mkdtempSync(join(tmpdir(), 'lapwright-files-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: string | Buffer): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

function messageOf(load: () => unknown): string {
  try {
    load();
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
  return 'no problem';
}

const loading = (path: string): string => messageOf(() => loadScenarioFile(path));

describe('a file that is no scenario', () => {
  it('is named with what is wrong', () => {
    mkdirSync(join(folder, 'sub'));
    expect(loading(join(folder, 'none.yaml'))).toMatch(/none\.yaml: there is no such file/);
    expect(loading(join(folder, 'none.yaml', 'x'))).toMatch(/there is no such file/);
    expect(loading('scenarios/vilage-hall.yaml')).toMatch(/Did you mean scenarios[/\\]village-hall\.yaml\?/);
    expect(loading('gatehouse')).toMatch(/Name a scenario file, such as .* it comes first/);
    expect(loading(join(folder, 'sub'))).toMatch(/this is a folder/);
    expect(loading('/dev/null')).toMatch(/not a plain file/);
    expect(loading(file('empty.yaml', ''))).toMatch(/the file is empty/);
    expect(loading(file('comment.yaml', '# nothing\n'))).toMatch(/the file is empty/);
    expect(loading(file('binary.yaml', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 1, 2])))).toMatch(
      /a binary file/,
    );
    expect(loading(file('latin.yaml', Buffer.from([0x6e, 0x61, 0x6d, 0x65, 0x3a, 0x20, 0xe9])))).toMatch(
      /not in UTF-8/,
    );
    expect(
      loading(file('utf16.yaml', Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(SOUND, 'utf16le')]))),
    ).toMatch(/UTF-16.*Save it as UTF-8/);
    expect(loading(file('large.yaml', `# ${'x'.repeat(MOST_BYTES)}\n${SOUND}`))).toMatch(
      /1001\d{3} bytes; a scenario may have at most 1000000/,
    );
    expect(loading(file('two.yaml', `${SOUND}---\n${SOUND}`))).toMatch(/more than one document/);
    expect(loading(file('list.yaml', '- a\n- b\n'))).toMatch(/must be a group of keys/);
    expect(loading(file('word.yaml', 'lift'))).toMatch(/must be a group of keys/);
    expect(loading(file('tag.yaml', SOUND.replace('name: Sound loop', 'name: !!js/function "x"')))).toMatch(
      /tag\.yaml:1:/,
    );
  });

  it('does not hang or crash on bombs of aliases and brackets', () => {
    const bomb = [
      'a: &a [x, x, x, x, x, x, x, x, x]',
      ...'bcdefghi'
        .split('')
        .map((name, i) => `${name}: &${name} [${Array(9).fill(`*${'abcdefgh'[i]}`).join(', ')}]`),
    ].join('\n');
    expect(loading(file('bomb.yaml', bomb))).toMatch(/nothing here is called "a"/);
    const wide = `name: wide\nshow: { lasts: 1 h }\ncharge: 1\ntemplates:\n  t: &t\n    travel: { empirical: &e [${Array(9000).fill('1 s').join(', ')}] }\nmodules:\n${Array.from({ length: 1500 }, (_, i) => `  m${i}: { basket: 9, cycle: 1 s, travel: { empirical: *e } }`).join('\n')}`;
    expect(loading(file('wide.yaml', wide))).toMatch(/stands for more than 1000000 values/);
    expect(loading(file('circle.yaml', 'name: &a { x: *a }\nmodules: &b { c: *b }'))).toMatch(/circle\.yaml/);
    expect(loading(file('deep.yaml', `name: ${'['.repeat(200_000)}`))).toMatch(
      /nested too deeply|not YAML|missing/,
    );
    expect(loading(file('deepmap.yaml', `name: ${'{a: '.repeat(100_000)}`))).toMatch(/deepmap\.yaml/);
  });

  it('may hold many aliases, which are followed in one pass', () => {
    const modules = Array.from({ length: 1500 }, (_, i) => `  m${i}: *m`).join('\n');
    const { spec } = loadScenarioFile(
      file(
        'aliases.yaml',
        `name: n\nshow: { lasts: 1 h }\ncharge: 9\ntemplates:\n  t: &m { basket: 9, cycle: 1 s, travel: 1 s }\nmodules:\n${modules}`,
      ),
    );
    expect(spec.modules).toHaveLength(1500);
  });

  it('is told from a result of this program, and from another version of YAML', () => {
    expect(loading(file('result.json', '{ "kind": "lapwright-run", "seed": 1 }'))).toMatch(
      /this is a result, not a scenario/,
    );
    expect(loading(file('old.yaml', `%YAML 1.1\n---\n${SOUND}`))).toMatch(/YAML 1\.1, in which 10:00/);
    expect(loading(file('new.yaml', `%YAML 1.2\n---\n${SOUND}`))).toBe('no problem');
  });

  it('cannot write to the terminal', () => {
    const bell = '\u001b[2J\u0007\u202e';
    for (const text of [
      SOUND.replace('name: Sound loop', `name: "a\\e[2J"`),
      SOUND.replace('about:', `"${bell.replace('\u001b', '\\e').replace('\u0007', '\\a')}":`),
      SOUND.replace('counter: lift', 'counter: "\\e[2J"'),
      SOUND.replaceAll('tipper', 'tip\u202eper'),
    ]) {
      const message = messageOf(() => parseScenario(text));
      expect(message).not.toBe('no problem');
      expect(message.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Bidi_Control}]/u);
    }
  });

  it('asks for no more events than can be simulated', () => {
    expect(
      messageOf(() =>
        parseScenario(`name: n
show: { lasts: 30 d }
feed: { bursts: { balls: 100000, every: 0.01 s } }
modules:
  a: { basket: 9, cycle: 0.01 s, travel: 1 s }
`),
      ),
    ).toMatch(/events/);
  });

  it('cannot reach into the program through odd names', () => {
    for (const name of ['__proto__', 'constructor', 'toString', 'hasOwnProperty']) {
      expect(messageOf(() => parseScenario(SOUND.replace('about:', `${name}:`)))).toMatch(
        new RegExp(`nothing here is called "${name}"`),
      );
    }
    const spec = parseScenario(SOUND.replaceAll('tipper', 'constructor')).spec;
    expect(spec.modules.map(({ id }) => id)).toEqual(['lift', 'constructor', 'wheel-two']);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });
});

describe('problems', () => {
  it('are all told at once, in the order of the file', () => {
    const text = SOUND.replace('lasts: 6 h', 'lasts: 6')
      .replace('batch: 4', 'batch: -4')
      .replace('counter: lift', 'counter: lfit');
    const lines = messageOf(() => parseScenario(text, 'x.yaml')).split('\n');
    expect(lines.map((line) => line.replace(/:\d+: .*/, ''))).toEqual(['x.yaml:5', 'x.yaml:9', 'x.yaml:22']);
  });

  it('that fifty modules share through a template are told once', () => {
    const modules = Array.from({ length: 50 }, (_, i) => `  m${i}: { like: t }`).join('\n');
    const text = `name: n\nshow: { lasts: 1 h }\ncharge: 5\ntemplates:\n  t: { basket: 9, cycle: 1 s }\nmodules:\n${modules}`;
    expect(messageOf(() => parseScenario(text)).split('\n')).toHaveLength(1);
  });

  it('are found in names that look alike', () => {
    const text = `name: n\nshow: { lasts: 1 h }\ncharge: 5\nmodules:\n  1: { basket: 9, cycle: 1 s, travel: 1 s }\n  "1": { basket: 9, cycle: 1 s, travel: 1 s }\n`;
    expect(messageOf(() => parseScenario(text, 'x.yaml'))).toMatch(/x\.yaml:6:3: .*stands here twice/);
  });

  it('are found in a crowd of balls that an unlimited basket can never hold', () => {
    const text = `name: n\nshow: { lasts: 1 h }\ncharge: 5\nmodules:\n  a: { basket: unlimited, cycle: 1 s, travel: 1 s, stops: { jam: { per_cycle: 0.1, crowded: { above: 50 %, times: 2 }, itself: 9 s } } }\n`;
    expect(messageOf(() => parseScenario(text, 'x.yaml'))).toMatch(/x\.yaml:5:.*unlimited/);
  });

  it('of thousands of unknown names are told quickly', () => {
    const names = Array.from({ length: 2000 }, (_, i) => `unknown-${i}`);
    const text = SOUND.replace('[lift, tipper, wheel-two]', `[${names.join(', ')}]`);
    expect(messageOf(() => parseScenario(text))).toMatch(/more than 100 problems|more problems/);
  });

  it('are cut after a hundred', () => {
    const modules = Array.from(
      { length: 300 },
      (_, i) => `  m${i}: { basket: -1, cycle: 1 s, travel: 1 s }`,
    ).join('\n');
    const text = `name: n\nshow: { lasts: 1 h }\ncharge: 5\nmodules:\n${modules}`;
    const lines = messageOf(() => parseScenario(text)).split('\n');
    expect(lines).toHaveLength(101);
    expect(lines.at(-1)).toBe('and 200 more problems.');
  });
});

describe('what is read', () => {
  it('is the same from JSON, with a byte order mark, and with line ends of another system', () => {
    const plain = parseScenario(SOUND).spec;
    expect(loadScenarioFile(file('bom.yaml', `\uFEFF${SOUND}`)).spec).toEqual(plain);
    expect(loadScenarioFile(file('crlf.yaml', SOUND.replaceAll('\n', '\r\n'))).spec).toEqual(plain);
    const json = {
      name: 'json',
      show: { lasts: '1 h' },
      feed: { bursts: { balls: 30, every: { exponential: { mean: '30 s' } } } },
      modules: { a: { basket: 'unlimited', cycle: '1 s', travel: '2 s' } },
    };
    const { spec } = loadScenarioFile(file('s.json', JSON.stringify(json, null, '\t')));
    expect(spec.supply).toEqual({
      kind: 'feed',
      balls: 30,
      every: { family: 'exponential', mean: 30 },
      first: 0,
    });
    expect(spec.modules[0]?.basket.capacity).toBe(Infinity);
  });

  it('carries units over into seconds, balls and shares, and templates into modules', () => {
    const { spec } = parseScenario(SOUND);
    const [lift, tipper, wheel] = spec.modules;
    expect(spec.show).toEqual({ seconds: 21_600, warmUpSeconds: 600, opensAtSeconds: 36_000 });
    // 10 h to 13 h by the clock is 0 to 3 h after the opening; 3 h to 6 h follows.
    expect(spec.crew.duty).toEqual([
      { fromSeconds: 0, minders: 2 },
      { fromSeconds: 10_800, minders: 3 },
      { fromSeconds: 21_600, minders: 0 },
    ]);
    expect(spec.supply).toEqual({ kind: 'charge', placed: [14, 13, 13] });
    expect(lift?.stops[0]?.trigger).toEqual({
      kind: 'running',
      time: { family: 'weibull', mean: 7200, cv: 0.7 },
    });
    expect(lift?.stops[1]?.trigger).toEqual({ kind: 'at', times: [9000, 18_000] });
    // 64 x 64 x 96 mm hold 164 balls of 14 mm at packing 0.6.
    expect(tipper).toMatchObject({
      builder: 'Perrin',
      batch: 4,
      drive: { kind: 'demand', startAt: 4 },
      basket: { capacity: 164 },
    });
    expect(wheel).toMatchObject({
      basket: { capacity: 90, order: 'mixed' },
      cycle: { family: 'lognormal', mean: 3.6, cv: 0.05 },
    });
    const cause = wheel?.stops[0];
    expect(cause?.remedy).toEqual({
      kind: 'crew',
      notice: { family: 'constant', value: 10 },
      walk: { family: 'triangular', min: 5, mode: 10, max: 30 },
      clear: { family: 'exponential', mean: 60 },
    });
  });

  it('leaves modules out of the order on the side table', () => {
    const { spec, sideTable } = parseScenario(
      SOUND.replace('[lift, tipper, wheel-two]', '[wheel-two, lift]'),
    );
    expect(spec.modules.map(({ id }) => id)).toEqual(['wheel-two', 'lift']);
    expect(sideTable.map(({ id }) => id)).toEqual(['tipper']);
    expect(spec.counter).toBe(1);
  });
});
