// The invented people of the Tern Street Pointing Club, and the true story of each. Levels are factors on what everybody in the club begins with, by
// part of the movement; `curve` is a law of practice as simulateLearner takes it, per session.
const steady = { law: "flat", a: 1 };
const usualScreen = { id: "club desk", refreshHz: 144, latency: 0.03, reportHz: 125, countsPerInch: 800, mmPerPx: 0.27 };
const oldScreen = { ...usualScreen, id: "desk with the old screen", refreshHz: 60, latency: 0.055 };
const newScreen = { ...usualScreen, id: "desk with the new screen", refreshHz: 240, latency: 0.02 };

export const people = [
  {
    person: "Aino",
    seed: 4100,
    story: "gets better in every part, most in the first weeks, and still does",
    sessions: 18,
    parts: {
      primary: { law: "exponential", a: 0.65, b: 0.35, c: 0.1 },
      correction: { law: "exponential", a: 0.65, b: 0.35, c: 0.1 },
      stopAndPress: { law: "exponential", a: 0.65, b: 0.35, c: 0.1 },
      nextTarget: { law: "exponential", a: 0.75, b: 0.25, c: 0.1 },
    },
    equipment: () => usualScreen,
  },
  {
    person: "Jory",
    seed: 4200,
    story: "corrects late, roughly and slowly from first to last; everything else is as the club's",
    sessions: 18,
    parts: { primary: steady, correction: { law: "flat", a: 1.8 }, stopAndPress: steady, nextTarget: steady },
    equipment: () => usualScreen,
  },
  {
    person: "Petra",
    seed: 4300,
    story: "got better in the first two weeks and has been on a plateau since",
    sessions: 18,
    parts: {
      primary: { law: "exponential", a: 0.8, b: 0.3, c: 0.8 },
      correction: { law: "exponential", a: 0.8, b: 0.3, c: 0.8 },
      stopAndPress: { law: "exponential", a: 0.8, b: 0.3, c: 0.8 },
      nextTarget: { law: "exponential", a: 0.85, b: 0.2, c: 0.8 },
    },
    equipment: () => usualScreen,
  },
  {
    person: "Samir",
    seed: 4400,
    story: "moves as before; in week 4 the old screen was changed for a faster one",
    sessions: 18,
    parts: { primary: steady, correction: steady, stopAndPress: steady, nextTarget: steady },
    equipment: (week) => (week < 4 ? oldScreen : newScreen),
  },
  {
    person: "Wren",
    seed: 4500,
    story: "came twice, in the last week: too little to say anything about practice",
    sessions: 2,
    parts: { primary: steady, correction: steady, stopAndPress: steady, nextTarget: steady },
    equipment: () => usualScreen,
  },
];
