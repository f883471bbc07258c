// A number as it is typed into the form of a recipe, read as the compiler reads one (`src/units/number.rs`), exactly.
//
// Pure. `traysideTyped.typed(page, text, measure, unit)` gives what it comes to, or what is refused and why.

"use strict";

globalThis.traysideTyped = (() => {
  const { fillAll } = globalThis.traysideFigures;
  /** The units that a measure is typed in; without one it is in the unit that was chosen beside the field. */
  const UNITS = { volume: ["ml", "l"], length: ["mm"], mass: ["g", "kg"], count: [""] };
  const VULGAR = {
    "½": [1n, 2n], "⅓": [1n, 3n], "⅔": [2n, 3n], "¼": [1n, 4n], "¾": [3n, 4n], "⅕": [1n, 5n], "⅖": [2n, 5n], "⅗": [3n, 5n],
    "⅘": [4n, 5n], "⅙": [1n, 6n], "⅚": [5n, 6n], "⅛": [1n, 8n], "⅜": [3n, 8n], "⅝": [5n, 8n], "⅞": [7n, 8n],
  };
  const MOST_DIGITS = 18;
  const MOST_EXPONENT = 18;
  const MOST_BELOW = 4294967295n;
  const LARGEST = 2n ** 127n - 1n;

  // Fractions of whole numbers in lowest terms.

  const lowest = ([above, below]) => {
    let [a, b] = [above < 0n ? -above : above, below];
    while (b !== 0n) [a, b] = [b, a % b];
    return a === 0n ? [0n, 1n] : [above / a, below / a];
  };
  const sum = (a, b) => lowest([a[0] * b[1] + b[0] * a[1], a[1] * b[1]]);
  const nearest = ([above, below]) => Number(above) / Number(below);
  /** In canonical units; where the compiler's whole numbers would not hold the product, it multiplies the nearest ones. */
  const exactly = (value, { num, den }) => {
    const product = lowest([value[0] * BigInt(num), value[1] * BigInt(den)]);
    const held = product[0] <= LARGEST && product[0] >= -LARGEST && product[1] <= LARGEST;
    return held ? nearest(product) : nearest(value) * num / den;
  };

  /** A refusal, thrown to where the text was given. */
  class Refused {
    constructor(name, ...places) {
      Object.assign(this, { name, places });
    }
  }

  /** A place in a text, and what may be taken from there. */
  class Cursor {
    constructor(text) {
      Object.assign(this, { text, at: 0 });
    }

    /** What `pattern` (sticky) finds here, moved over; nothing where it finds nothing. */
    take(pattern) {
      pattern.lastIndex = this.at;
      const found = pattern.exec(this.text);
      if (found) this.at += found[0].length;
      return found;
    }
  }

  const quotient = (above, below) => {
    if (/^0+$/.test(below)) throw new Refused("zero_below_line");
    if (BigInt(below) > MOST_BELOW) throw new Refused("below_line_too_large", below);
    return lowest([above, BigInt(below)]);
  };
  /** Behind a whole number: what is below its line, or a fraction to add. */
  const withFraction = (cursor, whole) => {
    const below = cursor.take(/[/⁄](\d+)/y);
    if (below) return quotient(whole, below[1]);
    const vulgar = cursor.take(/\s*([½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])/uy);
    if (vulgar) return sum([whole, 1n], VULGAR[vulgar[1]]);
    const mixed = cursor.take(/\s+(\d{1,6})[/⁄](\d+)/y);
    return mixed && sum([whole, 1n], quotient(BigInt(mixed[1]), mixed[2]));
  };
  /** The other decimal mark, or a second one. */
  const otherMark = (cursor, start, page) => {
    const end = cursor.at + /^[\d.,]*\d/.exec(cursor.text.slice(cursor.at))[0].length;
    const token = cursor.text.slice(start, end);
    if (token.match(/[.,]/g).length > 1) throw new Refused("several_marks", token, page.decimal);
    const [before, after] = token.split(/[.,]/);
    if (after.length === 3 && before.length >= 1 && before.length <= 3 && before !== "0") {
      throw new Refused("two_numbers", token, before + after, before + page.decimal + after);
    }
  };
  const unsigned = (cursor, page) => {
    const start = cursor.at;
    const vulgar = cursor.take(/[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]/uy);
    if (vulgar) return { value: VULGAR[vulgar[0]], decimals: 0, significant: 1, fraction: true };
    let before = cursor.take(/\d*/y)[0];
    if (before.length >= 1 && before.length <= 3) {
      // Three digits behind a thin or no-break space, unless they stand over a line.
      for (let group; (group = cursor.take(/[\u2009\u202f\u00a0](\d{3})(?!\d|[/⁄]\d)/y));) before += group[1];
    }
    const mark = page.decimal === "," ? /,(\d+)/y : /\.(\d+)/y;
    let after = cursor.take(mark)?.[1];
    if (/^[.,]\d/.test(cursor.text.slice(cursor.at))) {
      // A keyboard that shows figures alone may have only the other mark: it is taken where it cannot set off thousands.
      otherMark(cursor, start, page);
      after = cursor.take(/[.,](\d+)/y)[1];
    } else if (after === undefined && before !== "") {
      // While it is typed.
      cursor.take(/[.,](?=\s*$)/y);
    }
    after ??= "";
    const power = cursor.take(/e([-−+]?)(\d+)/iy);
    const exponent = power ? Number(power[2]) * (/[-−]/.test(power[1]) ? -1 : 1) : 0;
    const text = cursor.text.slice(start, cursor.at);
    const digits = before + after;
    if (digits.length > MOST_DIGITS) throw new Refused("too_many_digits", text);
    if (Math.abs(exponent) > MOST_EXPONENT) throw new Refused("too_far_out", text);
    const shift = exponent - after.length;
    const ten = 10n ** BigInt(Math.abs(shift));
    const value = shift >= 0 ? [BigInt(digits) * ten, 1n] : lowest([BigInt(digits), ten]);
    const added = after === "" && exponent === 0 ? withFraction(cursor, value[0]) : null;
    const meant = digits.replace(/^0+/, "");
    // Zeros at the end of a whole number only hold its place.
    const significant = (after === "" ? meant.replace(/0+$/, "") : meant).length;
    return {
      value: added ?? value,
      decimals: Math.min(Math.max(after.length - exponent, 0), 12),
      significant: Math.max(significant, 1),
      fraction: Boolean(added),
    };
  };

  /** The number, and the unit that stands behind it, where it does. */
  const read = (page, text, measure) => {
    const cursor = new Cursor(text.trim());
    const sign = cursor.take(/[-−+]\s*/y)?.[0].charAt(0) ?? "";
    if (!/^(\d|[.,]\d|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞])/u.test(cursor.text.slice(cursor.at))) throw new Refused("number_wanted");
    const number = unsigned(cursor, page);
    const unit = cursor.text.slice(cursor.at).trimStart();
    if (unit !== "" && !UNITS[measure].includes(unit)) throw new Refused("number_wanted");
    const negative = sign !== "" && sign !== "+";
    if (negative && number.value[0] > 0n) throw new Refused(`${measure}_below_zero`);
    return { ...number, unit, signed: sign === "+" };
  };

  /**
   * What was typed, of a measure: `value` in its canonical unit, `unit` as typed or else the one given, `told` whether it was
   * typed, and how the number was written. Or `refused`.
   */
  const typed = (page, text, measure, unit) => {
    try {
      const number = read(page, text, measure);
      const of = number.unit || unit;
      return { ...number, value: exactly(number.value, page.units[of] ?? { num: 1, den: 1 }), unit: of, told: number.unit !== "" };
    } catch (refused) {
      if (!(refused instanceof Refused)) throw refused;
      return { refused: fillAll(page.words.form[refused.name], refused.places) };
    }
  };

  return { UNITS, typed };
})();
