import { expect, test } from '@playwright/test';
import { seeded } from '../src/lib/fixtures/chance';
import { resolve } from '../src/line/records/resolve';
import { Office } from './line';
import { Storm } from './storm';

/** `HALFPOINT_SEED=7 HALFPOINT_STEPS=20000 npx playwright test storm`: one storm again, or a longer one. */
const seed = Number(process.env.HALFPOINT_SEED ?? Date.now() % 1_000_000);
const steps = Number(process.env.HALFPOINT_STEPS ?? 4_000);

test('a storm loses nothing that was entered, and doubles nothing', async () => {
  console.log(`  the storm of seed ${seed}, ${steps} steps`);
  test.setTimeout(60_000 + steps * 200);
  const chance = seeded(seed);
  const office = new Office(8095);
  try {
    await office.start();
    await office.setUp();
    const storm = new Storm(office, chance);
    await storm.begin();
    await blow(storm, office, chance);
    await storm.settle();
    await examine(storm, office);
  } finally {
    await office.stop('SIGTERM');
    office.remove();
  }
});

/** Between the steps the server is killed, backed up and restored from a backup that is older than what it acknowledged. */
async function blow(storm: Storm, office: Office, chance: () => number): Promise<void> {
  for (let n = 0; n < steps; n++) {
    await storm.happen();
    const share = (n / steps) * 8;
    if (Math.floor(share) === Math.floor(((n + 1) / steps) * 8)) continue;
    if (Math.floor(share) === 2) await office.backUp();
    else if (Math.floor(share) === 4) await office.restore();
    else {
      // Killed with requests on the way: what it stored and could not answer comes again.
      const steps = storm.devices.map((device) => device.step());
      for (let n = Math.floor(chance() * 8); n > 0; n--) await new Promise(setImmediate);
      await office.stop('SIGKILL');
      await Promise.all(steps);
      await office.start();
    }
  }
}

async function examine(storm: Storm, office: Office): Promise<void> {
  const chief = storm.devices.at(-1);
  const there = (await chief?.plan())?.records ?? [];
  for (const device of storm.devices) {
    const kept = await device.made();
    const ids = kept.map(({ id }) => id);
    expect(kept.map(({ seq }) => seq)).toEqual(kept.map((_, i) => i + 1));
    expect(
      [...device.entered].filter((id) => !ids.includes(id)),
      'what was shown as entered is kept',
    ).toEqual([]);
    const atOffice = there.filter(({ author }) => author.device === device.id).map(({ id }) => id);
    expect(atOffice.sort(), 'what is kept is at the office, once').toEqual(ids.sort());
    expect(await device.store.counts(device.id)).toEqual({ waiting: 0, refused: 0 });
  }
  for (const flight of resolve(storm.setup, there).flights) {
    if (!storm.flights.includes(flight.flight)) continue;
    for (const sheet of flight.attempts.find(({ attempt }) => attempt === flight.counting)?.sheets ?? []) {
      const office_ = await office.sheet(flight.flight, sheet.judge);
      expect(office_.grades).toEqual(sheet.cells.map(({ grade }) => grade));
    }
  }
  console.log(`  ${there.length} records at the office`);
}
