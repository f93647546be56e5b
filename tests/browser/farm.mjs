// An invented farm for the browser: a real broker, the real daemon, free ports, a store of its own.
import { execFileSync, spawn } from 'node:child_process';
import { closeSync, mkdirSync, mkdtempSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

const patience = 30_000;
const gleyd = process.argv[2];
const top = join(import.meta.dirname ?? new URL('.', import.meta.url).pathname, '../..');

// Asks until the question is answered with something.
export async function until(what, ask, limit = patience) {
  const end = Date.now() + limit;
  for (;;) {
    const answer = await ask();
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`waited ${limit / 1000} s for ${what}`);
    await pause(20);
  }
}

const freePort = () => new Promise((found) => {
  const server = createServer().listen(0, '127.0.0.1', () => {
    const { port } = server.address();
    server.close(() => found(port));
  });
});

const machines = [['quad', 'Quad bike', 0.15, 0.3], ['drill', 'Tractor and drill', 2.6, 1.0],
  ['spreader', 'Fertiliser spreader', 2.2, 1.2], ['tanker', 'Slurry tanker, full', 4.0, 1.5]];
const materials = [['nitrogen', 'Nitrogen top dressing', 'mineral fertiliser'],
  ['slurry', 'Cattle slurry', 'slurry'], ['spray', 'Spray', 'spray']];
const soils = ['sand', 'sandy loam', 'clay loam', 'silty clay loam', 'clay', 'silt loam'];
const drainages = ['free', 'moderate', 'slow', 'poor'];

const quoted = JSON.stringify;

const station = (id) => `
[[station]]
id = "${id}"
[[station.reading]]
topic = "weather/${id}/rain"
quantity = "rain"
unit = "mm"
form = "interval"
[[station.reading]]
topic = "weather/${id}/temperature"
quantity = "temperature"
unit = "Cel"
form = "instant"
`;

const field = (name, index) => `
[[field]]
id = "f${index}"
name = ${quoted(name)}
station = "${index % 4 === 3 ? 'brook' : 'yard'}"
soil = "${soils[index % soils.length]}"
drainage = "${drainages[index % drainages.length]}"
crop = "grass"
sign_machine = "${machines[index % machines.length][0]}"
`;

const machine = ([id, name, load, bar]) => `
[[machine]]
id = "${id}"
name = "${name}"
wheel_load_t = ${load}
tyre_pressure_bar = ${bar}
`;

const material = ([id, name, kind]) => `
[[material]]
id = "${id}"
name = "${name}"
kind = "${kind}"
`;

const configuration = (ports, names, { silentAfter, token }) => `
[farm]
id = "alder"
name = "Alder Farm"
latitude = 53.9
longitude = -1.3
elevation_m = 57
time_zone = "Europe/London"
[mqtt]
host = "127.0.0.1"
port = ${ports.mqtt}
[http]
port = ${ports.http}
${token ? 'token_file = "token"\n' : ''}[forecast]
topic = "weather/forecast"
${silentAfter ? `[readings]\nsilent_after_h = ${silentAfter}\n` : ''}[store]
path = "alder.db"
durability = "process"
${station('yard')}${station('brook')}${names.map(field).join('')}
${machines.map(machine).join('')}${materials.map(material).join('')}`;

// Sixty days of autumn up to yesterday: a shower every third day.
const pastWeather = () => {
  const rows = ['date,rain_mm,tmin_c,tmax_c'];
  for (let ago = 60; ago > 0; ago -= 1) {
    const date = new Date(Date.now() - ago * 86_400_000).toISOString().slice(0, 10);
    rows.push(`${date},${ago % 3 === 0 ? 4 : 0},3.5,${9 + (ago % 4)}`);
  }
  return `${rows.join('\n')}\n`;
};

// Whatever happens to a test, nothing of its farm outlives it.
const children = new Set();
process.on('exit', () => children.forEach((child) => child.kill('SIGKILL')));
const begin = (program, options, log, env = process.env) => {
  const child = spawn(program, options, { stdio: ['ignore', log, log], env });
  child.unref();
  children.add(child);
  child.once('exit', () => children.delete(child));
  return child;
};

const ended = (child) => new Promise((done) => {
  if (child.exitCode !== null || child.signalCode !== null) done();
  else child.once('exit', done);
});

export const twelveNames = ['Long Meadow', 'Church Piece', 'Sandholes', 'Ten Acre', 'Brook Field',
  'Upper Warren', 'Mill Croft', 'Home Paddock', 'Lower Thorns', 'Far Bottoms', 'Quarry Close', 'The Carr'];

export class Farm {
  static async start({ names = twelveNames, past = true, silentAfter = null, token = null, withFaults = false }) {
    const farm = new Farm();
    farm.ports = { mqtt: await freePort(), http: await freePort() };
    farm.url = `http://127.0.0.1:${farm.ports.http}/`;
    farm.state = mkdtempSync(join(tmpdir(), 'gley-browser-'));
    farm.config = join(farm.state, 'farm.toml');
    writeFileSync(farm.config, configuration(farm.ports, names, { silentAfter, token }));
    if (token) writeFileSync(join(farm.state, 'token'), `${token}\n`);
    writeFileSync(join(farm.state, 'mosquitto.conf'),
      `listener ${farm.ports.mqtt} 127.0.0.1\nallow_anonymous true\n${process.getuid() === 0 ? 'user root\n' : ''}`);
    if (past && names.length > 0) farm.loadPast();
    if (withFaults) farm.prepareFaults();
    await farm.startBroker();
    await farm.startDaemon();
    return farm;
  }

  loadPast() {
    const file = join(this.state, 'past.csv');
    writeFileSync(file, pastWeather());
    for (const id of ['yard', 'brook']) {
      execFileSync(gleyd, ['load', '--config', this.config, '--station', id, '--weather', file], { stdio: 'pipe' });
    }
  }

  // The library of tests/faults lets the daemon's clock be set: a page of three 64-bit numbers, of which
  // the second is by how many seconds it is ahead.
  prepareFaults() {
    const faults = join(this.state, 'faults');
    mkdirSync(join(faults, 'synced'), { recursive: true });
    writeFileSync(join(faults, 'page'), new Uint8Array(24));
    this.environment = { LD_PRELOAD: join(gleyd, '../tests/libfaults.so'), GLEY_FAULTS: faults };
  }

  setClock(to) {
    const ahead = Buffer.alloc(8);
    ahead.writeBigInt64LE(BigInt(Math.round((to - Date.now()) / 1000)));
    const page = openSync(join(this.state, 'faults', 'page'), 'r+');
    writeSync(page, ahead, 0, 8, 8);
    closeSync(page);
  }

  async startBroker() {
    const log = openSync(join(this.state, 'mosquitto.log'), 'a');
    this.broker = begin('mosquitto', ['-c', join(this.state, 'mosquitto.conf')], log,
      { ...process.env, PATH: `${process.env.PATH}:/usr/sbin` });
    await until('the broker', () => this.publish('weather/none', '0'));
  }

  async startDaemon() {
    const log = openSync(join(this.state, 'gleyd.log'), 'a');
    this.daemon = begin(gleyd, ['serve', '--config', this.config], log,
      { ...process.env, ...this.environment });
    await until('the daemon and its broker', async () => {
      if (this.daemon.exitCode !== null) throw new Error(`the daemon stopped: see ${this.state}/gleyd.log`);
      try {
        return (await (await fetch(`${this.url}api/board`)).json()).fields
          && (await (await fetch(`${this.url}metrics`)).text()).match(/^gley_broker_connected 1/m);
      } catch {
        return false;
      }
    });
  }

  async stop(child, signal = 'SIGTERM') {
    child.ref();
    child.kill(signal);
    await ended(child);
  }

  publish(topic, payload, ...options) {
    try {
      execFileSync('mosquitto_pub', ['-p', String(this.ports.mqtt), '-q', '1', '-t', topic, '-m', payload, ...options], { stdio: 'pipe' });
      return true;
    } catch {
      return false;
    }
  }

  /// Whether the broker holds that the daemon listens: what is sent after that counts.
  isOnline() {
    try {
      return execFileSync('mosquitto_sub', ['-p', String(this.ports.mqtt), '-t', 'gley/alder/state', '-C', '1', '-W', '2'],
        { encoding: 'utf8', stdio: 'pipe' }).trim() === 'online';
    } catch {
      return false;
    }
  }

  forecast() {
    const now = new Date().toISOString().slice(0, 16);
    this.publish('weather/forecast', execFileSync(join(top, 'demo/forecast.py'), ['--now', now], { encoding: 'utf8' }), '-r');
  }

  async close() {
    await this.stop(this.daemon);
    await this.stop(this.broker);
    rmSync(this.state, { recursive: true, force: true });
  }
}
