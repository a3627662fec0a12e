// Days, units and problems as they are said on the page.
import { FeedError } from "libfeed";

/** Today on this device's clock, as libfeed wants it: it has no clock of its own. */
export function today(): string {
  const now = new Date();
  const two = (number: number): string => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** The day some days after another. */
export function dayAfter(date: string, days: number): Date {
  const [year = 0, month = 1, day = 1] = date.split("-").map(Number);
  return new Date(year, month - 1, day + days);
}

export type Units = "metric" | "us";

/** "Tue 1 Dec", "Tue Dec 1": as the lines of the answer say a day. */
export function weekday(day: Date, units: Units): string {
  const part = (one: Intl.DateTimeFormatOptions): string => day.toLocaleDateString("en", one);
  const date = [part({ day: "numeric" }), part({ month: "short" })];
  return [part({ weekday: "short" }), ...(units === "us" ? date.reverse() : date)].join(" ");
}

/** The keeper's units: chosen once, else those of the browser's country. */
export function usualUnits(): Units {
  return /-(US|LR|MM)$/i.test(navigator.language) ? "us" : "metric";
}

/** A weight that nobody can read finer from a kitchen scale. */
export function weight(kilograms: number, units: Units): string {
  const two = (number: number): string => String(Number(number.toPrecision(2)));
  if (units === "us") {
    const ounces = kilograms * 35.274;
    return ounces < 16 ? `${two(ounces)} oz` : `${two(ounces / 16)} lb`;
  }
  return kilograms < 1 ? `${two(kilograms * 1000)} g` : `${two(kilograms)} kg`;
}

/** What went wrong, in one or two sentences. */
export function problems(fault: unknown): string {
  if (!(fault instanceof FeedError)) return fault instanceof Error ? fault.message : String(fault);
  return fault.errors
    .map((one) => {
      const said = `${one.field}: ${one.message}${one.value && !one.message.includes(one.value) ? ` (given: ${one.value})` : ""}`;
      return said.charAt(0).toUpperCase() + said.slice(1) + (/[.?!]$/.test(said) ? "" : ".");
    })
    .join(" ");
}
