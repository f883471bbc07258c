// Numbers as the compiler rounds and writes them (`src/units`): what a recipe's script needs of it.
//
// Sums, products and quotients stand in the order in which the compiler has them: IEEE 754 fixes each of them to the last
// bit, so that the texts are the same to the last digit. No logarithm, power or root of the browser's own is used where its
// last bit could be read.

"use strict";

globalThis.traysideFigures = (() => {
  const NO_BREAK = "\u00a0";
  const MINUS = "\u2212";
  const EN_DASH = "\u2013";
  const MOST_DECIMALS = 12;

  // Ranges: lowest, best, highest.

  const exact = (value) => [value, value, value];
  const range = (low, best, high) => {
    const [from, to] = high < low ? [high, low] : [low, high];
    return [from, Math.min(Math.max(best, from), to), to];
  };
  const times = ([low, best, high], factor) => range(low * factor, best * factor, high * factor);
  const plus = (a, b) => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
  const minus = (a, b) => [a[0] - b[2], a[1] - b[1], a[2] - b[0]];
  const isExact = (of) => of[0] === of[2];
  const product = (a, b) => {
    const best = a[1] * b[1];
    const corners = [a[0] * b[0], a[0] * b[2], a[2] * b[0], a[2] * b[2]];
    return [Math.min(best, ...corners), best, Math.max(best, ...corners)];
  };

  // Rounding.

  /** A power of ten, as the nearest binary fraction. */
  const power = (of) => Number(`1e${of}`);
  /** To a whole number, halves away from zero. */
  const whole = (value) => {
    const size = Math.abs(value);
    const below = Math.floor(size);
    const rounded = size - below >= 0.5 ? below + 1 : below;
    return value < 0 ? -rounded : rounded;
  };
  /** The same, where what lies within a hair of a half counts as one. */
  const half = (value) => {
    const size = Math.abs(value);
    const rounded = Math.floor(size + size * 1e-13 + 0.5);
    return value < 0 ? -rounded : rounded;
  };
  const exponent = (value) => {
    const size = Math.abs(value);
    if (size === 0 || !Number.isFinite(size)) return 0;
    let found = Math.floor(Math.log10(size));
    while (power(found) > size) found -= 1;
    while (power(found + 1) <= size) found += 1;
    return found;
  };
  const trimmed = (value, most) => {
    let parts = half(value * power(most));
    let decimals = most;
    while (decimals > 0 && parts % 10 === 0) {
      parts /= 10;
      decimals -= 1;
    }
    return decimals;
  };

  // How far: `{ significant }`, `{ decimals }` or `{ step }`.

  const significant = (count) => ({ significant: count });
  const rounded = (value, digits) => {
    if (!Number.isFinite(value)) return [value, 0];
    if (digits.decimals !== undefined) return [value, Math.min(digits.decimals, MOST_DECIMALS)];
    if (digits.significant !== undefined) {
      const place = Math.max(digits.significant, 1) - 1 - exponent(value);
      if (place < 0) {
        const unit = power(-place);
        return [half(value / unit) * unit, 0];
      }
      return [value, trimmed(value, Math.min(place, MOST_DECIMALS))];
    }
    const { step } = digits;
    if (!(Number.isFinite(step) && step > 0)) return [value, trimmed(value, 6)];
    let decimals = 0;
    for (; decimals < 6; decimals += 1) {
      const scaled = step * power(decimals);
      if (Math.abs(scaled - whole(scaled)) < 1e-9 * scaled && whole(scaled) > 0) break;
    }
    const stepped = half(value / step) * step;
    if (decimals < 6) return [stepped, decimals];
    return [stepped, trimmed(stepped, step >= 0.01 ? 2 : 6)];
  };
  const decimalsNeeded = (of, digits) => Math.max(rounded(of[0], digits)[1], rounded(of[2], digits)[1]);
  const decimalsAllowed = (of, count) => {
    const size = Math.max(Math.abs(of[0]), Math.abs(of[2]));
    const place = Math.max(count, 1) - 1 - exponent(size);
    return Math.min(Math.max(place, 0), MOST_DECIMALS);
  };

  /** Kitchen fractions and shutter speeds; nothing for any other number. */
  const fraction = (value) => {
    const size = Math.abs(value);
    if (!Number.isFinite(size) || size >= 1e6) return null;
    const sign = value < 0 ? MINUS : "";
    for (const below of [1, 2, 3, 4, 5, 6, 8]) {
      const parts = whole(size * below);
      if (Math.abs(size * below - parts) < 1e-9 * Math.max(parts, 1) && (parts > 0 || size === 0)) {
        const [full, rest] = [Math.floor(parts / below), parts % below];
        if (rest === 0) return `${sign}${full}`;
        return full === 0 ? `${sign}${rest}/${below}` : `${sign}${full}${NO_BREAK}${rest}/${below}`;
      }
    }
    const inverse = whole(1 / size);
    return size < 0.2 && Math.abs(1 / size - inverse) < 1e-6 && inverse <= 10000 ? `${sign}1/${inverse}` : null;
  };
  const isPlural = (numeral) => {
    const size = numeral.replace(/^[\u2212+]+/, "");
    return !(size === "1" || (size.includes("/") && !size.includes(NO_BREAK)));
  };

  const fill = (template, text) => {
    const at = template.indexOf("{}");
    return at < 0 ? template : template.slice(0, at) + text + template.slice(at + 2);
  };
  const fillAll = (template, texts) => template.replace(/\{(\d+)\}/g, (place, number) => texts[Number(number) - 1] ?? place);
  const listed = (names, and) => (names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} ${and} ${names.at(-1)}`);

  /** Numbers in words, as the page's notebook writes them. */
  const writer = (page) => {
    const { units, words } = page;

    const fixed = (value, wanted) => {
      if (Number.isNaN(value)) return "?";
      if (!Number.isFinite(value)) return value < 0 ? `${MINUS}∞` : "∞";
      const decimals = Math.min(wanted, MOST_DECIMALS);
      const parts = Math.abs(half(value * power(decimals)));
      let digits = BigInt(Math.min(parts, 1e18)).toString();
      // From here on a binary fraction is a whole number, or has no more decimals than it can hold.
      if (parts >= 1e18) digits = Math.abs(value) >= 1e18 ? BigInt(Math.abs(value)) + "0".repeat(decimals) : Math.abs(value).toFixed(decimals).replace(".", "");
      digits = digits.padStart(decimals + 1, "0");
      if (decimals > 0) digits = digits.slice(0, -decimals) + page.decimal + digits.slice(-decimals);
      return value < 0 && parts > 0 ? MINUS + digits : digits;
    };
    /** The number alone, and whether a word after it stands in the plural. */
    const numeral = (of, digits, fractions = false) => {
      const one = (value) => {
        const text = fractions ? fraction(rounded(value, digits)[0]) : null;
        return text ?? fixed(...rounded(value, digits));
      };
      if (isExact(of)) {
        const best = one(of[1]);
        return [best, isPlural(best)];
      }
      const [low, high] = [one(of[0]), one(of[2])];
      return low === high ? [low, isPlural(low)] : [low + EN_DASH + high, true];
    };
    const placed = (text, unit, plural) => {
      const label = unit.labels[plural ? 1 : 0];
      if (label === "") return text;
      return {
        apart: text + NO_BREAK + label, close: text + label, before: label + NO_BREAK + text, against: label + text,
      }[unit.place];
    };
    const inUnit = (of, unit) => {
      const one = (value) => value * unit.den / unit.num;
      return isExact(of) ? exact(one(of[1])) : range(one(of[0]), one(of[1]), one(of[2]));
    };
    const showIn = (of, unit, digits) => {
      const inside = digits.step === undefined ? digits : { step: Math.abs(digits.step * unit.den / unit.num) };
      const [text, plural] = numeral(inUnit(of, unit), inside);
      return placed(text, unit, plural);
    };
    const sizeOf = (of) => Math.max(Math.abs(of[0]), Math.abs(of[2]));
    const mass = (of, digits = significant(3)) => {
      const size = sizeOf(of);
      return showIn(of, units[size < 0.1 && size > 0 ? "mg" : size >= 1000 ? "kg" : "g"], digits);
    };
    const volume = (of, digits = significant(3)) => showIn(of, units[sizeOf(of) < 1 ? "ml" : "l"], digits);
    const length = (millimetres) => {
      const size = Math.abs(millimetres);
      const small = (limit) => size < limit && size > 0;
      return showIn(exact(millimetres), units[small(0.001) ? "nm" : small(0.01) ? "µm" : size >= 1000 ? "m" : "mm"], significant(3));
    };
    const number = (value, digits = significant(3)) => numeral(exact(value), digits)[0];

    // Times, to two digits.

    const [MINUTE, HOUR, DAY] = [60, 3600, 86400];
    const meaningful = (seconds) => {
      const length = Math.abs(seconds);
      const leading = length >= 2 * DAY ? DAY : length >= HOUR ? HOUR : length >= MINUTE ? MINUTE : 1;
      const [value, decimals] = rounded(seconds / leading, significant(2));
      const scale = power(decimals);
      const near = half(value * scale) / scale * leading;
      const size = Math.abs(near);
      const to = (unit) => half(near / unit) * unit;
      if (size < MINUTE) return near;
      if (size < HOUR) return to(1);
      if (size < 2 * DAY) return to(MINUTE);
      return size < 7 * DAY ? to(HOUR) : to(DAY);
    };
    const single = (seconds) => {
      if (!(seconds >= MINUTE && Number.isFinite(seconds))) return `${fixed(...rounded(seconds, significant(2)))}${NO_BREAK}s`;
      const parts = seconds >= 2 * DAY ? [[DAY, page.days], [HOUR, "h"]] : [[HOUR, "h"], [MINUTE, "min"], [1, "s"]];
      const told = [];
      let rest = seconds;
      for (const [unit, name] of parts) {
        const count = Math.floor(rest / unit);
        rest -= count * unit;
        if (count > 0) told.push(fixed(count, 0), name);
      }
      return told.join(NO_BREAK);
    };
    const time = (of) => {
      const [low, high] = [meaningful(of[0]), meaningful(of[2])];
      if (isExact(of) || low === high) return single(meaningful(of[1]));
      const both = (unit) => low % unit === 0 && high % unit === 0;
      const joined = (unit, name) => `${fixed(low / unit, 0)}${EN_DASH}${fixed(high / unit, 0)}${NO_BREAK}${name}`;
      if (high < 2 * MINUTE && !(both(MINUTE) && low > 0)) {
        const [first, last] = [rounded(low, significant(2)), rounded(high, significant(2))];
        return `${fixed(...first)}${EN_DASH}${fixed(last[0], high < MINUTE ? last[1] : 0)}${NO_BREAK}s`;
      }
      if (both(DAY) && high >= 2 * DAY) return joined(DAY, page.days);
      if (both(HOUR) && high < 2 * DAY) return joined(HOUR, "h");
      if (both(MINUTE) && high < 2 * HOUR) return joined(MINUTE, "min");
      return `${single(low)} ${EN_DASH} ${single(high)}`;
    };

    // Amounts as they were written.

    const spoons = (amount, of) => range(of[0] / amount.heap[0], of[1] / amount.heap[1], of[2] / amount.heap[2]);
    /** The unit to move to where the number would grow unwieldy. */
    const neighbour = (amount, of) => {
      const size = sizeOf(of);
      const metric = { mass: ["mg", "g", "kg"], volume: ["ml", "cl", "dl", "l"] }[amount.of] ?? [];
      if (size === 0 || !metric.includes(amount.unit.symbol)) return amount.unit;
      if (amount.of === "volume") return units[size < 1 ? "ml" : "l"];
      return units[size < 0.1 ? "mg" : size >= 1000 ? "kg" : "g"];
    };
    const scaled = (amount, factor) => {
      if (factor === 1 || !Number.isFinite(factor)) return amount;
      const of = times(amount.range, factor);
      const unit = neighbour(amount, of);
      const digits = significant(Math.max(amount.significant, 3));
      const inside = inUnit(spoons(amount, of), unit);
      const needed = decimalsNeeded(inside, digits);
      const same = unit.symbol === amount.unit.symbol;
      const decimals = same ? Math.max(needed, Math.min(amount.decimals, decimalsAllowed(inside, digits.significant))) : needed;
      return { ...amount, range: of, unit, decimals };
    };
    const written = (amount) => {
      const about = amount.about ? fill(words.about, "") : "";
      if (amount.each) {
        const counted = amount.of === "count";
        const [count, decimals] = rounded(counted ? amount.range[1] : amount.range[1] / amount.each.best, significant(3));
        const text = `${about}${fixed(count, decimals)}${NO_BREAK}×${NO_BREAK}${amount.each.text}`;
        const label = counted ? amount.unit.labels[count === 1 ? 0 : 1] : "";
        return label === "" ? text : `${text} ${label}`;
      }
      const inside = inUnit(spoons(amount, amount.range), amount.unit);
      let [text, plural] = numeral(inside, { decimals: amount.decimals });
      if (amount.form === "plusminus") {
        text = `${fixed(inside[1], amount.decimals)}${NO_BREAK}±${NO_BREAK}${fixed((inside[2] - inside[0]) / 2, amount.decimals)}`;
        plural = true;
      } else if (amount.form === "fraction") {
        const [low, high] = [fraction(inside[0]), fraction(inside[2])];
        if (low !== null && low === high) [text, plural] = [low, isPlural(low)];
        else if (low !== null && high !== null) [text, plural] = [low + EN_DASH + high, true];
        else [text, plural] = numeral(inside, significant(Math.max(amount.decimals, 3)));
      }
      if (amount.signed && inside[1] > 0) text = `+${text}`;
      if (amount.heap_word !== "") text += NO_BREAK + amount.heap_word;
      return about + placed(text, amount.unit, plural);
    };
    return { fixed, number, showIn, mass, volume, length, time, scaled, written };
  };

  return {
    NO_BREAK, exact, range, times, plus, minus, isExact, product, whole, significant, fill, fillAll, listed, writer,
  };
})();
