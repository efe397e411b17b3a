// Pictures of the page as it stands after a user's moves, and of the report's sheets, as PNG.
// Usage: see browser.mjs; REPORT=<report.html> node pictures.mjs FOLDER
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { begin, end, settled, moved } from './browser.mjs';

const folder = process.argv[2];
const laptop = { width: 1366, height: 768 }, tablet = { width: 768, height: 1024 }, projector = { width: 1920, height: 1080 };
const a4 = { width: 794, height: 1123 }; // 210 mm by 297 mm at 96 dots an inch

async function plateAndPacking(page) {
  for (const [id, word] of [['shoe-type', 'full plate'], ['shoe-material', 'polyurethane A90'], ['packing-region', 'full sole'], ['packing-order', 'before nailing']]) await page.selectOption(`#${id}`, word);
  await page.fill('#packing-proud-field', '1');
  await page.press('#packing-proud-field', 'Enter');
  await page.fill('#name', 'plate, packed before nailing');
  await page.press('#name', 'Enter');
  await moved(page);
}

const phase = (word) => async (page) => { await page.check(`#phase-${word}`); await moved(page); };
const first = (page) => page.evaluate(() => { document.activeElement.blur(); scrollTo(0, 0); document.querySelector('.choices').scrollTop = 0; });
const to = (id) => (page) => page.evaluate((name) => document.getElementById(name).scrollIntoView(), id);

const shots = [
  ['laptop', { viewport: laptop }, [phase('breakover'), first]],
  ['laptop-dark-changes', { viewport: laptop, colorScheme: 'dark' }, [phase('breakover'), to('changes')]],
  ['tablet', { viewport: tablet }, [plateAndPacking, phase('swing'), first]],
  ['projector', { viewport: projector }, [plateAndPacking, phase('midstance'), first]],
  ['projector-dark', { viewport: projector, colorScheme: 'dark' }, [plateAndPacking, phase('swing'), first]],
];

async function shoot({ browser, address }, [name, options, moves]) {
  const page = await browser.newPage(options);
  await page.goto(address);
  await settled(page);
  for (const move of moves) await move(page);
  await page.screenshot({ path: path.join(folder, `${name}.png`) });
  await page.close();
}

async function shootReport({ browser }, report) {
  const page = await browser.newPage({ viewport: a4 });
  await page.goto(pathToFileURL(report).href);
  await page.screenshot({ path: path.join(folder, 'report-first-page.png') });
  for (const [name, title] of [['job-sheet', 'Job sheet'], ['owner-sheet', 'For the owner']]) {
    const box = await page.locator('section', { has: page.locator('h2', { hasText: title }) }).boundingBox();
    const clip = { x: 0, y: box.y - 14, width: a4.width, height: box.height + 28 };
    await page.screenshot({ path: path.join(folder, `${name}.png`), clip, fullPage: true });
  }
  await page.close();
}

const running = await begin();
try {
  for (const shot of shots) await shoot(running, shot);
  await shootReport(running, process.env.REPORT);
} finally {
  await end(running);
}
