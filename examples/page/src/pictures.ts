// The drawings of the page, our own. Told apart by shape, never by colour alone.

const svg = (inside: string): string =>
  `<svg viewBox="0 0 64 64" fill="none" stroke="currentColor" stroke-width="2.5" stroke-linecap="round" stroke-linejoin="round">${inside}</svg>`;

const worm = (x: number, y: number): string =>
  `<path class="worm" d="M${x} ${y}c3-5 6 5 9 0s6 4 9 0"/>`;

export const containers: Record<string, string> = {
  tray: svg(
    `<path d="M10 14h44v11H10zM10 27h44v11H10zM10 40h44v11H10z"/><path d="M14 51v5M50 51v5"/>${worm(20, 33)}`,
  ),
  tote: svg(`<path d="M8 20h48M11 20l4 34h34l4-34"/><path d="M12 14h40v6H12z"/>${worm(22, 42)}`),
  bucket: svg(
    `<path d="M14 20h36l-5 36H19z"/><path d="M14 20C16 4 48 4 50 20"/>${worm(23, 42)}`,
  ),
  bath: svg(
    `<path d="M4 24h56c0 18-4 24-12 24H16C8 48 4 42 4 24z"/><path d="M16 48v6M48 48v6"/>${worm(22, 37)}`,
  ),
  "flow-through": svg(
    `<path d="M14 8h36v38H14z"/><path d="M14 46h36" stroke-dasharray="3 5"/><path d="M20 46v12M44 46v12M28 52v5M36 52v5"/>${worm(23, 26)}`,
  ),
  box: svg(`<path d="M8 22h48v32H8z"/><path d="M8 33h48M8 43h48"/><path d="M6 16h52v6H6z"/>`),
};

/** A fist that squeezes a handful of the bed; what comes out of it differs. */
const fist = (below: string): string =>
  svg(
    `<path d="M14 30c0-12 4-18 10-18 3 0 4 1 5 3 2-3 8-3 9 0 3-2 8-1 9 3 4 0 5 3 5 8 0 10-5 14-13 14H25c-7 0-11-3-11-10z"/><path d="M29 15v9M38 15v9M47 18v7"/>${below}`,
  );
const drop = (x: number, y: number): string => `<path d="M${x} ${y}c-3 5-3 7 0 7s3-2 0-7z"/>`;

export const fists: Record<string, string> = {
  crumbly: fist(
    `<path d="M20 47h.01M27 51h.01M34 46h.01M41 52h.01M46 47h.01M31 57h.01M39 59h.01" stroke-width="4"/>`,
  ),
  damp: fist(""),
  drops: fist(`${drop(27, 46)}${drop(39, 49)}`),
  "many drops": fist(`${drop(20, 45)}${drop(28, 49)}${drop(36, 45)}${drop(44, 49)}${drop(32, 56)}`),
  streams: fist(`<path d="M22 43v18M30 43v18M38 43v18M46 43v18"/>`),
};

export const signs: Record<string, string> = {
  "sour smell": svg(
    `<path d="M12 40h40l-4 14H16z"/><path d="M22 34c-4-6 4-8 0-14M32 34c-4-6 4-8 0-14M42 34c-4-6 4-8 0-14"/>`,
  ),
  "rotten smell": svg(
    `<path d="M12 44h40l-4 12H16z"/><path d="M20 38c-6-8 6-12 0-22M32 38c-6-8 6-12 0-22M44 38c-6-8 6-12 0-22"/><path d="M26 50l4 4m0-4l-4 4"/>`,
  ),
  "ammonia smell": svg(
    `<path d="M32 8c10 14 14 20 14 28a14 14 0 0 1-28 0c0-8 4-14 14-28z"/><path d="M26 34v10M26 34l8 10v-10M38 36h4"/>`,
  ),
  "worms climbing": svg(`<path d="M14 16v42h40"/>${worm(18, 48)}<path class="worm" d="M20 40c-5-3 5-6 0-9s4-6 0-9"/><path class="worm" d="M30 34c-5-3 5-6 0-9"/>`),
  "worms balled": svg(
    `<circle cx="32" cy="34" r="17"/><path class="worm" d="M20 32c6-7 10 7 16 0s8 3 9 0M22 41c6-5 9 5 15 0M26 24c5-4 8 4 13 0"/>`,
  ),
  "dead worms": svg(
    `<path class="worm" d="M12 40h40"/><path d="M24 24l8 8m0-8l-8 8M40 24l6 6m0-6l-6 6"/>`,
  ),
  flies: svg(
    `<ellipse cx="32" cy="36" rx="6" ry="11"/><path d="M28 30C16 18 8 26 14 32s12 4 14 2M36 30c12-12 20-4 14 2s-12 4-14 2"/><circle cx="32" cy="22" r="4"/>`,
  ),
  gnats: svg(
    `<path d="M18 20h.01M30 14h.01M44 20h.01M24 30h.01M38 30h.01M50 34h.01M14 38h.01" stroke-width="5"/><path d="M10 52h44"/>`,
  ),
  ants: svg(
    `<circle cx="18" cy="36" r="5"/><circle cx="30" cy="36" r="5"/><ellipse cx="45" cy="36" rx="9" ry="7"/><path d="M24 42l-5 10M30 42v10M37 42l6 10M14 32l-6-8"/>`,
  ),
  mites: svg(
    `<circle cx="32" cy="34" r="12"/><path d="M20 28l-9-5M19 36H8M22 43l-8 6M44 28l9-5M45 36h11M42 43l8 6"/>`,
  ),
  mould: svg(
    `<path d="M8 50h48"/><path d="M18 50V36M30 50V28M42 50V34"/><circle cx="18" cy="32" r="4"/><circle cx="30" cy="23" r="5"/><circle cx="42" cy="30" r="4"/>`,
  ),
  heat: svg(
    `<path d="M28 12a5 5 0 0 1 10 0v26a10 10 0 1 1-10 0z"/><path d="M33 20v24" stroke-width="4"/><path d="M46 16h8M46 26h8"/>`,
  ),
  wet: svg(`<path d="M8 30h48M10 30l4 26h36l4-26"/><path d="M14 42c5-4 8 4 12 0s8 4 12 0 8 4 12 0"/>`),
  dry: svg(`<path d="M8 24h48v30H8z"/><path d="M20 24l5 10-5 8 6 12M40 24l-5 9 6 8-4 13"/>`),
  "food left": svg(
    `<path d="M32 22c-12-8-20 2-16 16 3 10 9 16 16 12 7 4 13-2 16-12 4-14-4-24-16-16z"/><path d="M32 22c0-6 2-10 6-12"/>`,
  ),
  rats: svg(
    `<path d="M10 44c0-12 10-18 22-18 10 0 18 4 22 14l-6 6H14c-3 0-4-1-4-2z"/><circle cx="42" cy="28" r="5"/><path d="M47 38h.01" stroke-width="4"/><path d="M10 44c-6 2-6 10 4 10h12"/>`,
  ),
};

/** Never, in a shape of its own. */
export const never = svg(`<path d="M22 8h20l14 14v20L42 56H22L8 42V22z"/><path d="M22 22l20 20m0-20L22 42"/>`);
