// The little of selenium-webdriver that engines.mjs uses; the package brings no types along.
declare module 'selenium-webdriver' {
  export class Capabilities {
    constructor(wanted: Record<string, unknown>);
  }
  export const By: { css(selector: string): unknown };
  export const Key: Record<string, string>;
  export const Origin: { VIEWPORT: unknown };
  interface Actions {
    move(to: { x: number; y: number; duration?: number; origin: unknown }): Actions;
    press(): Actions;
    release(): Actions;
    sendKeys(keys: string): Actions;
    perform(): Promise<void>;
  }
  interface WebDriver {
    get(url: string): Promise<void>;
    executeAsyncScript(script: string, ...args: unknown[]): Promise<unknown>;
    findElement(by: unknown): { click(): Promise<void> };
    switchTo(): { frame(element: unknown): Promise<void>; defaultContent(): Promise<void> };
    actions(): Actions;
    takeScreenshot(): Promise<string>;
    quit(): Promise<void>;
    manage(): {
      setTimeouts(limits: { script?: number }): Promise<void>;
      window(): { setRect(to: { x: number; y: number; width: number; height: number }): Promise<unknown> };
    };
  }
  export class Builder {
    usingServer(url: string): this;
    withCapabilities(wanted: Capabilities): this;
    build(): Promise<WebDriver>;
  }
}
