// A recipe at any volume: the numbers that the page ships, multiplied and rounded as `trayside mix` does it.
//
// Pure: no page, no clock. `traysideScale.mix(page, id, target)` gives the sheet, or what is refused and why. The steps are
// those of `src/views/weighing`, in its order, with the numbers of `src/views/scaling`.

"use strict";

globalThis.traysideScale = (() => {
  const {
    NO_BREAK, exact, range, times, plus, minus, isExact, product, whole, significant, fill, fillAll, listed, writer,
  } = globalThis.traysideFigures;

  // Rounding several weighings to one scale, together.

  const off = (ratio) => Math.max(ratio, 1 / ratio);
  const spread = (wanted, weighed) => {
    const errors = wanted.map((amount, at) => weighed[at] / amount);
    return Math.max(Math.max(0, ...errors) / Math.min(...errors), 1);
  };
  const jointly = (wanted, step, same) => {
    const plain = wanted.map((amount) => Math.max(whole(amount / step), 1) * step);
    const all = wanted.flatMap((amount, of) => {
      const steps = amount / step;
      const counts = [Math.floor(steps + same), Math.ceil(steps - same)].filter((count) => count >= 1);
      return counts.map((count) => ({ error: count * step / amount, of, weighed: count * step }));
    });
    all.sort((a, b) => a.error - b.error);
    const held = wanted.map(() => 0);
    let [covered, from, best] = [0, 0, null];
    for (const last of all) {
      if (held[last.of] === 0) covered += 1;
      held[last.of] += 1;
      while (covered === wanted.length) {
        const first = all[from];
        from += 1;
        const width = last.error / first.error;
        const worst = Math.max(off(first.error), off(last.error));
        const shorter = best && best[1] / best[0] / width;
        if (!best || shorter > 1 + same || (shorter > 1 - same && worst < Math.max(off(best[0]), off(best[1])))) {
          best = [first.error, last.error];
        }
        held[first.of] -= 1;
        if (held[first.of] === 0) covered -= 1;
      }
    }
    if (!best || spread(wanted, plain) <= best[1] / best[0] * (1 + same)) return plain;
    return plain.map((amount, of) => {
      const own = all.filter((one) => one.of === of && best[0] <= one.error && one.error <= best[1]);
      return own.length === 0 ? amount : own.reduce((a, b) => (off(b.error) < off(a.error) ? b : a)).weighed;
    });
  };
  const fits = (grams, step, coarse) => Math.abs(whole(grams / step) * step - grams) <= coarse * grams;

  /** The spoons that come nearest to a weight. */
  const spoonfuls = (grams, bulk, owned, most) => {
    const sizes = [...new Set(owned.filter((spoon) => spoon > 0).sort((a, b) => b - a))];
    const smallest = sizes.at(-1);
    if (smallest === undefined || bulk[0] <= 0 || !Number.isFinite(grams)) return null;
    let left = grams / bulk[1];
    const taken = [];
    for (const spoon of sizes) {
      const count = Math.floor((left + smallest / 2 + 1e-9) / spoon);
      if (count >= 1) {
        left -= count * spoon;
        taken.push([Math.min(count, 4294967295), spoon]);
      }
    }
    const count = taken.reduce((all, [some]) => all + some, 0);
    if (!(count >= 1 && count <= most)) return null;
    return { taken, grams: times(bulk, taken.reduce((all, [some, spoon]) => all + some * spoon, 0)) };
  };

  /** By how much longer a bath so many times as large cools. */
  const cooling = (multiple, turns) => {
    let root = Math.max(multiple, 1);
    for (let turn = 0; turn < turns; turn += 1) root -= (root - multiple / (root * root)) / 3;
    return range(Math.min(root, multiple), root, Math.max(root, multiple));
  };

  // How much.

  const refuse = (why) => ({ refused: why });

  const litresOf = (page, recipe, target) => {
    const say = page.words.sheet;
    const { refused } = page.words;
    const write = writer(page);
    const makes = recipe.makes[1];
    let litres = makes;
    let because = say.as_written;
    if (target.by === "volume") {
      if (!(target.litres > 0 && Number.isFinite(target.litres))) return refuse(refused.more_than_nothing);
      litres = target.litres;
      because = say.as_asked;
    } else if (target.by === "tray") {
      const tray = page.trays[target.tray];
      if (!tray.inside) return refuse(fillAll(refused.no_inside, [tray.name]));
      const deep = target.depth ?? page.rule.depth;
      if (!(deep > 0)) return refuse(target.depth === undefined ? refused.no_depth : refused.more_than_nothing);
      if (tray.rim && deep > tray.rim[0]) {
        return refuse(fillAll(refused.runs_over, [tray.name, tray.rim[1], write.length(deep)]));
      }
      litres = tray.inside[0] * tray.inside[1] * deep / 1000 / 1000;
      because = fillAll(say.for_tray, [tray.name, tray.inside[2], write.length(deep)]);
      if (target.depth === undefined) because += say.usual_depth;
      if (deep < page.rule.least_depth) because += say.too_shallow;
    } else if (target.by === "sheets") {
      if (target.sheets === 0) return refuse(refused.no_sheets);
      if (recipe.capacity.Err !== undefined) return refuse(recipe.capacity.Err);
      const capacity = recipe.capacity.Ok;
      if (!(capacity > 0 && Number.isFinite(capacity))) return refuse(fillAll(refused.takes_none, [recipe.id]));
      litres = makes * (target.sheets / capacity);
      because = fill(target.sheets === 1 ? say.for_sheet : say.for_sheets, String(target.sheets));
    } else if (target.by === "limit") {
      const limit = recipe.limits[target.limit];
      const needs = limit[target.of];
      if (!(target.there > 0 && Number.isFinite(target.there))) return refuse(refused.more_than_nothing);
      if (!(needs > 0)) return refuse(fillAll(refused.none_there, [limit.name]));
      litres = makes * (target.there / needs);
      because = fillAll(say.limited, [target.text, limit.name]);
    }
    if (!(litres > 0 && Number.isFinite(litres))) return refuse(refused.nothing);
    if (litres > page.rule.most) return refuse(fillAll(refused.too_much, [write.number(litres, { decimals: 0 })]));
    return { litres, because };
  };

  /** What was typed, as the notebook writes it. */
  const named = (page, typed) => {
    const label = page.units[typed.unit] ?? { symbol: "", labels: ["", ""], num: 1, den: 1, place: "apart" };
    return writer(page).written({
      range: exact(typed.value), unit: label, of: "else", decimals: typed.decimals, significant: typed.significant,
      form: typed.fraction ? "fraction" : "plain", signed: typed.signed, about: false, heap: exact(1), heap_word: "", each: null,
    });
  };

  // The sheet.

  const sheet = (page, recipe, litres) => {
    const { rule, step } = page;
    const say = page.words.sheet;
    const write = writer(page);
    const multiple = litres / recipe.makes[1];
    const wanted = recipe.doses.map((dose) => dose.weighed && times(dose.weighed, multiple));
    const joined = wanted.map((grams) => (
      step && grams && isExact(grams) && grams[1] > 0 && fits(grams[1], step.grams, rule.coarse) ? grams[1] : null
    ));
    const together = step ? jointly(joined.filter((grams) => grams !== null), step.grams, rule.same) : [];
    const set = joined.map((grams) => (grams === null ? null : together.shift()));
    const weighed = (at) => (set[at] === null ? wanted[at] : exact(set[at]));

    const percent = (value) => write.number(value, significant(2));
    const signed = (value) => (value > 0 ? `+${percent(value)}` : percent(value));
    const offBy = (value) => {
      if (value === null || Math.abs(value) < rule.told) return "";
      return `${value > 0 ? "+" : ""}${write.number(value, { decimals: 1 })}${NO_BREAK}%`;
    };
    const weight = (grams, written) => {
      if (step && fits(grams[1], step.grams, rule.coarse)) {
        const text = write.showIn(grams, step.unit, { step: step.grams });
        return written?.about ? fill(page.words.about, text) : text;
      }
      return written ? write.written(written) : write.mass(grams);
    };
    const scaled = (amount, factor) => {
      const found = write.scaled(amount, factor);
      return amount.of !== "mass" || amount.each ? write.written(found) : weight(found.range, found);
    };
    const measured = (dose, at) => {
      const { measure } = dose;
      if (measure.by === "fixed") return measure.text;
      if (measure.by === "volume") return write.volume(times(measure.litres, multiple));
      if (measure.by === "scaled") return scaled(measure.amount, multiple * measure.times);
      return weight(weighed(at), measure.written && write.scaled(measure.written, multiple));
    };

    const slip = ({ slip: from }) => {
      const grams = times(from.grams, multiple);
      const real = times(grams, from.ratio);
      const share = 100 * real[1] / grams[1];
      return fillAll(say.wrong_form, [
        write.mass(grams), from.form, write.mass(real), from.family, from.meant, write.number(share, { decimals: 0 }),
      ]);
    };
    const tablets = ({ packet, active }, grams) => {
      const count = Math.max(whole(grams[1] / active), 1);
      const error = 100 * (count * active / grams[1] - 1);
      const told = Math.abs(error) < rule.told ? "" : `, ${signed(error)} %`;
      const counted = count === 1 ? say.one_tablet : say.tablets_of;
      return fillAll(say.tablets_there, [packet, fillAll(counted, [write.number(count), write.mass(exact(active)), told])]);
    };
    const tooCoarse = (at) => {
      const grams = wanted[at]?.[1];
      if (!step || !wanted[at] || set[at] !== null || grams <= 0 || fits(grams, step.grams, rule.coarse)) return null;
      const nearest = Math.max(whole(grams / step.grams), 1) * step.grams;
      return fillAll(say.too_fine, [write.mass(exact(nearest)), signed(100 * (nearest / grams - 1))]);
    };
    const inSpoons = (grams, bulk) => {
      const found = spoonfuls(grams, bulk, page.spoons, rule.most_spoons);
      if (!found) return null;
      const told = found.taken.map(([count, spoon]) => `${count} × ${write.volume(exact(spoon / 1000))}`);
      return fillAll(say.spoons, [listed(told, page.words.and), write.mass(found.grams, significant(2))]);
    };
    const notes = (dose, at) => {
      const told = [];
      const grams = dose.grams && times(dose.grams, multiple);
      const really = weighed(at);
      if (dose.other_form && grams) told.push(fillAll(say.does_the_work, [write.mass(grams), dose.name]));
      if (really && dose.water_share !== null) {
        const brought = times(really, dose.water_share);
        if (brought[1] > 0) told.push(fill(say.of_it_water, write.mass(brought)));
      }
      if (dose.slip) told.push(slip(dose));
      if (dose.strength) {
        const amount = write.written(write.scaled(dose.strength.amount, multiple));
        told.push(fillAll(say.other_strength, [dose.strength.there, amount, dose.strength.wanted]));
        if (dose.strength.cross) told.push(dose.strength.cross);
      }
      if (grams && dose.each) told.push(fill(say.plain_powder, write.mass(grams)));
      else if (grams && dose.tablets) told.push(tablets(dose.tablets, grams));
      told.push(tooCoarse(at));
      if (really && dose.bulk) told.push(inSpoons(really[1], dose.bulk));
      if (dose.spooned) {
        told.push(dose.spooned.grams
          ? fill(say.by_the_spoon, write.mass(times(dose.spooned.grams, multiple), significant(2)))
          : say.spoon_unknown);
      }
      return told.filter((note) => note !== null);
    };
    const doseRow = (at) => {
      const dose = recipe.doses[at];
      const row = { material: dose.called, amount: measured(dose, at), grams: null, wanted: null, off_percent: null };
      if (wanted[at] && isExact(wanted[at])) {
        row.wanted = wanted[at][1];
        row.grams = set[at];
        row.off_percent = set[at] === null ? null : 100 * (set[at] / row.wanted - 1);
      }
      if (dose.each && dose.grams) {
        const grams = times(dose.grams, multiple)[1];
        const count = Math.max(whole(grams / dose.each.grams), 1);
        row.amount = `${write.number(count)} × ${dose.each.text}`;
        row.wanted = grams;
        row.grams = count * dose.each.grams;
        row.off_percent = 100 * (count * dose.each.grams / grams - 1);
      }
      return { ...row, off: offBy(row.off_percent), notes: notes(dose, at) };
    };
    const plainRow = (material, amount) => ({
      material, amount, grams: null, wanted: null, off_percent: null, off: "", notes: [],
    });
    const row = (plan) => {
      if (plan.is === "dose") return doseRow(plan.at);
      if (plan.is === "water") return plainRow(plan.label, scaled(plan.amount, multiple));
      return plainRow(page.words.up, write.volume(times(plan.litres, multiple)));
    };

    const rounding = () => {
      const pairs = recipe.doses.map((_, at) => [wanted[at]?.[1], set[at]]).filter(([of, to]) => of !== undefined && to !== null);
      if (!step || pairs.length < 2) return null;
      const out = 100 * (spread(pairs.map(([of]) => of), pairs.map(([, to]) => to)) - 1);
      const told = write.mass(exact(step.grams));
      return out < rule.told ? fill(say.weighed_exactly, told) : fillAll(say.weighed_together, [told, percent(out)]);
    };

    const water = () => {
      if (!recipe.waters) return [];
      let put = recipe.waters
        .map((one) => times(one.range, (one.litres ? 1000 : 1) * multiple))
        .reduce(plus, exact(0));
      let kept = exact(0);
      let guessed = false;
      recipe.doses.forEach((dose, at) => {
        const grams = weighed(at);
        if (grams && dose.water_share !== null) put = plus(put, times(grams, dose.water_share));
        if (dose.takes?.dimension === "volume") put = plus(put, times(dose.takes.range, 1000 * multiple));
        if (dose.keeps) {
          guessed = true;
          kept = plus(kept, times(dose.keeps, multiple));
        }
      });
      const volume = (of, digits) => write.volume(times(of, 0.001), significant(digits));
      const lines = guessed ? [fill(say.plant_keeps, volume(kept, 2))] : [];
      const up = minus(exact(litres * 1000), minus(put, kept));
      const finished = volume(exact(litres * 1000), 3);
      if (up[2] < -0.001 * litres * 1000) {
        lines.push(fillAll(say.parts_exceed, [volume(times(up, -1), 2), finished]));
      } else {
        const above = range(Math.max(up[0], 0), Math.max(up[1], 0), up[2]);
        lines.push(fillAll(say.fill_up, [volume(above, 2), finished]));
      }
      return lines;
    };
    const vessel = () => {
      const room = recipe.fizzes ? rule.room_for_gas : rule.room;
      return fill(recipe.fizzes ? say.vessel_for_gas : say.vessel, write.volume(exact(litres * room)));
    };
    const stock = () => {
      if (!recipe.dilution) return [];
      const all = recipe.dilution.water + 1;
      const volumes = [litres, litres * all, litres / all, litres - litres / all];
      return [fillAll(say.stock_used, [recipe.dilution.text, ...volumes.map((one) => write.volume(exact(one)))])];
    };

    const figure = (plan) => {
      if (plan.is === "text") return plan.text;
      if (plan.is === "volume") return write.volume(times(plan.litres, multiple));
      return write.volume(times(exact(plan.litres), multiple), significant(2));
    };
    const stepOf = (plan) => {
      const [first = "", ...others] = plan.figures.map(figure);
      const vesselOf = plan.vessel_for !== null && multiple !== 1 ? `${plan.vessel} ${plan.vessel_for}` : plan.vessel;
      const told = plan.vessel === null ? plan.notes : [...plan.notes, vesselOf];
      return { part: plan.part, what: plan.what, figure: first, second: others.join(" "), note: told.join(", ") };
    };

    const timesOf = () => {
      const factor = cooling(multiple, rule.turns);
      const lines = [];
      const totals = recipe.times.map((steps) => steps.reduce((total, one) => {
        const time = one.time && (one.cools === null ? one.time : product(one.time, factor));
        if (one.cools !== null && time && multiple !== 1) {
          lines.push({ label: one.cools, text: fill(say.cools_slowly, write.time(time)) });
        }
        return total && time && plus(total, time);
      }, exact(0)));
      const common = totals.pop();
      const parts = totals.reduce((whole, part) => whole && part && range(
        Math.max(whole[0], part[0]), Math.max(whole[1], part[1]), Math.max(whole[2], part[2]),
      ), exact(0));
      const all = parts && common && plus(parts, common);
      if (all && all[2] > 0) lines.push({ label: say.in_all, text: fill(say.takes_as_long, write.time(all)) });
      return lines;
    };

    const shelf = () => {
      if (!page.shelf) return [];
      const used = [];
      recipe.doses.forEach((dose, at) => {
        const plan = dose.takes;
        if (!plan) return;
        let takes = times(plan.range, multiple);
        if (plan.dimension === "mass" && set[at] !== null) takes = exact(set[at]);
        if (plan.dimension === "count") takes = exact(Math.max(whole(plan.range[1] * multiple), 1));
        const same = used.find((one) => one.name === plan.name && one.dimension === plan.dimension);
        if (same) same.takes = plus(same.takes, takes);
        else used.push({ ...plan, takes });
      });
      return used.map(({ name, dimension, takes, there, shelved }) => {
        const text = (of) => (dimension === "count" ? fill(say.tablets, String(of[1])) : write[dimension](of));
        const line = { material: name, takes: text(takes), there: "", left: "", short: null };
        if (!shelved) return { ...line, short: say.not_on_shelf };
        if (!there) return line;
        const rest = minus(there, takes);
        const above = (of) => range(...of.map((value) => Math.max(value, 0)));
        const [left, missing] = [above(rest), above([-rest[2], -rest[1], -rest[0]])];
        let short = null;
        if (missing[1] > 0) short = fill(say.runs_short, text(missing));
        else if (left[1] <= 0) short = say.runs_out;
        else if (left[1] < takes[1]) short = say.not_again;
        return { ...line, there: text(there), left: text(left), short };
      });
    };

    return {
      volume: write.volume(exact(litres)),
      litres,
      groups: recipe.groups.map(({ name, rows }) => ({ name, rows: rows.map(row) })),
      rounding: rounding(),
      water: [...water(), vessel(), ...stock()],
      steps: recipe.steps.map(stepOf),
      times: timesOf(),
      shelf: shelf(),
    };
  };

  const mix = (page, id, target) => {
    const recipe = page.recipes[id];
    const found = litresOf(page, recipe, target);
    return found.refused === undefined ? { ...sheet(page, recipe, found.litres), because: found.because } : found;
  };

  return { mix, named, writer };
})();
