// The page's server and a browser, for what drives the page: tests and pictures.
// Environment: PAGE_MODULES a folder with node_modules, HOOFLOAD the program, CHROMIUM the browser.
import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import path from 'node:path';

export const require = createRequire(path.resolve(process.env.PAGE_MODULES, 'here.js'));
export const patience = 120000;

/** {server, address, browser}: the program serving its page, and a browser to open it with. */
export async function begin() {
  const server = spawn(process.env.HOOFLOAD, ['serve', '--quiet'], { cwd: process.env.PAGE_MODULES });
  const address = await new Promise((resolve, reject) => {
    server.stdout.once('data', (d) => resolve(String(d).trim()));
    server.once('exit', (code) => reject(new Error(`the server ended with ${code}`)));
  });
  const { chromium } = require('playwright-core');
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ['--no-sandbox'] });
  return { server, address, browser };
}

/** Closes both; the server's exit code. */
export async function end({ server, browser }) {
  await browser.close();
  server.removeAllListeners('exit');
  const ended = new Promise((resolve) => { server.once('exit', resolve); });
  server.kill('SIGINT');
  return ended;
}

/** Waits until what is shown is what the controls say. */
export async function settled(page) {
  const began = Date.now();
  while (Date.now() - began < patience) {
    const [shown, link] = await page.evaluate(() => [document.body.dataset.shown, location.hash.slice(1)]);
    if (shown && shown === link && !(await page.locator('body.solving, body.moving').count())) return;
    await page.waitForTimeout(50);
  }
  throw new Error('the page does not come to rest');
}

export async function moved(page) {
  await page.waitForTimeout(120);
  await settled(page);
}
