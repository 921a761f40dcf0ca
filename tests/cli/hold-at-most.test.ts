import { describe, expect, it } from "vitest";
import { holdAtMost } from "../../src/cli/hold-at-most.js";

const idle = () => new Promise((go) => setTimeout(go, 5));

/** Whether the promise has been kept by now. */
async function isKept(promise: Promise<void>): Promise<boolean> {
  let kept = false;
  void promise.then(() => {
    kept = true;
  });
  await idle();
  return kept;
}

describe("what is held together", () => {
  it("lets one hold any number, and others wait until there is room", async () => {
    const held = holdAtMost(10);
    const [one, other] = [held.open(), held.open()];
    expect(await isKept(one.take(25))).toBe(true);
    const wait = other.take(1);
    expect(await isKept(wait)).toBe(false);
    one.close();
    expect(await isKept(wait)).toBe(true);
    expect(await isKept(other.take(50))).toBe(true);
  });
  it("fills up to the bound itself", async () => {
    const held = holdAtMost(10);
    const [one, other] = [held.open(), held.open()];
    expect(await isKept(one.take(4))).toBe(true);
    expect(await isKept(other.take(6))).toBe(true);
    expect(await isKept(other.take(1))).toBe(false);
  });
  it("counts nothing of one that has let go, even while it was waiting", async () => {
    const held = holdAtMost(10);
    const [one, other, third] = [held.open(), held.open(), held.open()];
    await one.take(8);
    const wait = other.take(8);
    other.close();
    expect(await isKept(wait)).toBe(true);
    await other.take(100);
    one.close();
    expect(await isKept(third.take(8))).toBe(true);
    expect(await isKept(third.take(80))).toBe(true);
    // twice is once
    third.close();
    third.close();
    expect(await isKept(held.open().take(99))).toBe(true);
  });
});
