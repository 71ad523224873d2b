import type { Page } from 'playwright-core';

type Spot = readonly [number, number];

/** The hand of a newcomer, counting: a click, a drag, a stretch of keys typed into one field are an act each. */
export class Acts {
  count = 0;
  /** Keys pressed one by one, for comparison. */
  keys = 0;

  constructor(readonly page: Page) {}

  /** A button, tab or link by its words. */
  async click(name: string | RegExp, role: 'button' | 'tab' | 'menuitem' = 'button'): Promise<void> {
    this.count++;
    await this.page
      .getByRole(role, { name, exact: typeof name === 'string' })
      .first()
      .click();
  }

  async clickAt([x, y]: Spot): Promise<void> {
    this.count++;
    await this.page.mouse.click(x, y);
  }

  async drag(from: Spot, to: Spot): Promise<void> {
    this.count++;
    await this.page.mouse.move(from[0], from[1]);
    await this.page.mouse.down();
    await this.page.mouse.move((from[0] + to[0]) / 2, (from[1] + to[1]) / 2, { steps: 3 });
    await this.page.mouse.move(to[0], to[1], { steps: 3 });
    await this.page.mouse.up();
  }

  /** Opening a list of choices and taking one: two clicks. */
  async choose(label: string, value: string): Promise<void> {
    this.count += 2;
    await this.page.getByRole('combobox', { name: label }).selectOption(value);
  }

  /** One stretch of keys. */
  async press(...keys: readonly string[]): Promise<void> {
    this.count++;
    for (const key of keys) {
      this.keys++;
      await this.page.keyboard.press(key);
    }
  }

  /** Types over what a field holds, and goes on to the next. */
  async type(text: string, then: 'Tab' | 'Enter' = 'Tab'): Promise<void> {
    this.count++;
    this.keys += text.length + 1;
    await this.page.keyboard.press('Control+a');
    await this.page.keyboard.type(text);
    await this.page.keyboard.press(then);
  }

  /** The find field takes any command and any thing by its words. */
  async command(words: string): Promise<void> {
    this.count++;
    this.keys += words.length + 2;
    await this.page.keyboard.press('Control+k');
    await this.page.keyboard.type(words);
    await this.page.keyboard.press('Enter');
  }

  /** Goes on by the Tab key to what a screen reader would call so; one act, however many presses. */
  async tabTo(label: string): Promise<void> {
    this.count++;
    for (let presses = 0; presses < 150; presses++) {
      this.keys++;
      await this.page.keyboard.press('Tab');
      const here = await this.page.evaluate(() => {
        const focused = document.activeElement;
        return focused?.getAttribute('aria-label') ?? focused?.textContent?.trim() ?? '';
      });
      if (here === label) return;
    }
    throw new Error(`tabTo: expected to come to "${label}" within 150 presses`);
  }
}
