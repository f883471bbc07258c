// What a clock can do to be noticed: tones, vibration, and a screen that stays on.
(() => {
  "use strict";

  // Two low knocks to agitate, one long tone ten seconds before, three rising ones to move: told apart by rhythm alone.
  // Pitch in hertz, after how many seconds, for how many.
  const TONES = {
    agitate: [[330, 0, 0.09], [330, 0.16, 0.09]],
    soon: [[520, 0, 0.7]],
    move: [[520, 0, 0.16], [660, 0.2, 0.16], [880, 0.4, 0.5]],
  };
  // The same in milliseconds of shaking and rest.
  const SHAKES = { agitate: [60, 100, 60], soon: [500], move: [200, 80, 200, 80, 600] };

  let speaker = null;
  let wanted = false;
  let lock = null;

  const attempt = (what) => { try { return what(); } catch { return null; } };
  const changed = () => { if (signals.onChange) signals.onChange(); };

  const isLoud = () => speaker !== null && speaker.state === "running";

  // To be called where something was pressed: before that no browser lets a page be heard.
  const open = () => {
    speaker = speaker || attempt(() => new AudioContext());
    if (speaker && speaker.state !== "running") speaker.resume().then(changed, () => {});
  };

  const ring = (call) => {
    for (const [pitch, after, lasts] of TONES[call]) {
      const from = speaker.currentTime + after;
      const [tone, loud] = [speaker.createOscillator(), speaker.createGain()];
      tone.type = "triangle";
      tone.frequency.value = pitch;
      // Without a ramp it clicks.
      loud.gain.setValueAtTime(0, from);
      loud.gain.linearRampToValueAtTime(0.5, from + 0.02);
      loud.gain.setValueAtTime(0.5, from + lasts - 0.04);
      loud.gain.linearRampToValueAtTime(0, from + lasts);
      tone.connect(loud).connect(speaker.destination);
      tone.start(from);
      tone.stop(from + lasts);
    }
  };

  // Gives a signal in the ways that are switched on.
  const give = (call, { sound, shake }) => {
    if (shake && navigator.vibrate) attempt(() => navigator.vibrate(SHAKES[call]));
    if (sound && isLoud()) ring(call);
  };

  // Keeps the screen on, or no longer. A browser takes the lock away with the page out of sight, so this is asked again then.
  const awake = async (want) => {
    wanted = want;
    if (!navigator.wakeLock) return;
    if (!wanted && lock) {
      const held = lock;
      lock = null;
      await held.release().catch(() => {});
    }
    if (wanted && !lock && document.visibilityState === "visible") {
      const got = await navigator.wakeLock.request("screen").catch(() => null);
      if (got && (lock || !wanted)) got.release().catch(() => {});
      else if (got) {
        lock = got;
        got.addEventListener("release", () => { if (lock === got) lock = null; changed(); });
      }
    }
    changed();
  };

  const signals = {
    open, give, awake, isLoud,
    isAwake: () => lock !== null,
    canShake: Boolean(navigator.vibrate),
    canWake: Boolean(navigator.wakeLock),
    onChange: null,
  };
  globalThis.traysideSignals = signals;
})();
