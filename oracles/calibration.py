"""What the readings of a shop say, by brute force and apart from the program.

A shop is drawn from the priors a few million times; each draw counts by how likely it makes the
readings. Nothing here is Gaussian but the priors, nothing is carried by regression, no grid moves.
One wedge alone is done a second time, by adaptive quadrature.

    python3 oracles/calibration.py > tests/commands/calibrationOracle.json

numpy 1.24.2, scipy 1.10.1. The priors and likelihoods are those of docs/sources.md under
belief-priors, grade-likelihood, wedge-noise, jump-hypothesis, media-priors and dose-rule.
"""

import json
import math

import numpy as np
from scipy import integrate, optimize
from scipy.special import ndtr
from scipy.stats import norm

DRAWS = 3_000_000
KEPT = 60_000
MEDIA = {"soft pencil": (0.93, 0.20), "drawing ink": (1.20, 0.22), "cut masking film": (1.80, 0.30)}
GRADES = ["washed off", "soft", "good", "filling", "filled"]
WEDGE = {"firstDensity": 0.05, "increment": 0.15, "steps": 21}


class Shop:
    """Draws of everything that a name stands for, made when the name is first heard."""

    def __init__(self, seed):
        self.random = np.random.default_rng(seed)
        self.numbers = {}

    def of(self, kind, name, mean, sd):
        if name is None:  # one of its own, never heard of again
            return self.random.normal(mean, sd, DRAWS)
        key = (kind, name)
        if key not in self.numbers:
            self.numbers[key] = self.random.normal(mean, sd, DRAWS)
        return self.numbers[key]

    def hold_on(self, days, day):
        """The hold dose of the reference set-up on a day: a walk, and seldom a jump."""
        hold = self.of("hold", "", 1.013, 0.15)
        for before, after in zip(days, days[1:]):
            if after > day:
                break
            gap = after - before
            key = ("walk", (before, after))
            if key not in self.numbers:
                jumps = self.random.random(DRAWS) < 1 - (1 - 1 / 300) ** gap
                self.numbers[key] = self.random.normal(0, math.sqrt(5e-5 * gap), DRAWS) + np.where(
                    jumps, self.random.normal(0, 0.2, DRAWS), 0
                )
            hold = hold + self.numbers[key]
        return hold

    def set_up(self, place, days):
        dyed = 0.18 if place.get("dyed") else 0
        return (
            self.hold_on(days, place.get("day", 0))
            + self.of("unit", place.get("unit", ""), 0, 0.12)
            + self.of("batch", place.get("emulsion", ""), 0, 0.06)
            + self.of("fabric", place.get("fabric", "") + (" dyed" if dyed else ""), dyed, 0.08)
            + self.of("recipe", place.get("recipe", ""), 0, 0.06)
            + place.get("baseDensity", 0)
        )

    def skin(self):
        return self.of("skin", "", 0.235, 0.08)

    def sound(self):
        return self.of("sound", "", 0.45, 0.15)

    def medium(self, name):
        return self.of("medium", name, *MEDIA[name])

    def thresholds(self, place, days):
        z1 = self.set_up(place, days) + self.of("screen", place.get("screen"), 0, 0.05)
        if "medium" not in place:
            return z1, None, None
        film = self.of("film", place.get("film"), 0, 0.10)
        return z1, z1 + self.sound(), z1 - self.skin() + self.medium(place["medium"]) + film


def band_chance(band, x, z, lapse):
    z1, z2, z3 = z
    washed = ndtr((z1 - x) / 0.03)
    sound = np.minimum(ndtr((x - z2) / 0.03), 1 - washed)
    is_open = ndtr((z3 - x) / 0.04)
    filled = ndtr((x - z3 - 0.10) / 0.04)
    filling = 1 - is_open - filled
    if "grade" in band:
        chance = {
            "washed off": washed,
            "soft": (1 - washed - sound) * is_open,
            "good": sound * is_open,
            "filling": (1 - washed) * filling,
            "filled": (1 - washed) * filled,
        }[band["grade"]]
        return (1 - lapse) * chance + lapse / 5
    ground = {"washed off": washed, "soft": 1 - washed - sound, "sound": sound}[band["ground"]]
    marks = {"open": is_open, "filling": filling, "filled": filled}
    chance = ground if band["ground"] == "washed off" else ground * marks[band["marks"]]
    return (1 - lapse) * chance + lapse / 7


def passed_chance(x, z, passed):
    mu = (x - WEDGE["firstDensity"] - z) / WEDGE["increment"] + 1
    low = -np.inf if passed <= 0 else (passed - mu) / 0.5
    high = np.inf if passed >= WEDGE["steps"] else (passed + 1 - mu) / 0.5
    return ndtr(high) - ndtr(low)


def likelihood(shop, each, days):
    z = shop.thresholds(each, days)
    if each["kind"] == "wedge":
        x = math.log10(each["doseLu"])
        chance = passed_chance(x, z[0], each["lastSolidStep"])
        if "firstClearStep" in each:
            chance = chance * passed_chance(x, z[0] - shop.skin(), each["firstClearStep"] - 1)
        return chance
    bands, lapse = ([each], 0.05) if each["kind"] == "outcome" else (each["bands"], 0.02)
    chance = 1.0
    for band in bands:
        chance = chance * band_chance(band, math.log10(band["doseLu"]), z, lapse)
    return chance


def quantiles(values, weights):
    order = np.argsort(values)
    share = np.cumsum(weights[order])
    at = np.searchsorted(share, [0.05 * share[-1], 0.5 * share[-1], 0.95 * share[-1]])
    low, value, high = values[order][at]
    return {"value": float(value), "low": float(low), "high": float(high)}


def dose_rule(z):
    """The dose of most worth, and how far the chance of good is 0.8 of its best."""
    z1, z2, z3 = z

    def chances(x):
        is_open = ndtr((z3 - x) / 0.04)
        good = float(np.mean(ndtr((x - z2) / 0.03) * is_open))
        durable = float(np.mean(is_open * np.clip((x - z1) / 0.95, 0, 1)))
        return good, good + 0.25 * durable

    xs = np.arange(0.9, 2.6, 0.01)
    table = np.array([chances(x) for x in xs])
    good, worth = table.T
    # A parabola through the top smooths what is left of the drawing of lots.
    near = np.abs(xs - xs[np.argmax(worth)]) <= 0.06
    a, b, _ = np.polyfit(xs[near], worth[near], 2)
    dose = -b / (2 * a)
    inside = np.flatnonzero(good >= 0.8 * good.max())
    return {
        "doseLu": 10**dose,
        "lowLu": float(10 ** xs[inside[0]]),
        "highLu": float(10 ** xs[inside[-1]]),
        "chanceGood": chances(dose)[0],
    }


def answers(problem, seed):
    evidence = problem["evidence"]
    shop = Shop(seed)
    days = sorted({each["day"] for each in evidence + problem["ask"]})
    weights = np.ones(DRAWS)
    for each in evidence:
        weights = weights * likelihood(shop, each, days)
    newest = max(enumerate(evidence), key=lambda pair: (pair[1]["day"], pair[0]))[1]
    hold = shop.set_up(newest, days)
    result = {
        "draws": float(weights.sum() ** 2 / (weights**2).sum()),
        "holdLog": quantiles(hold, weights),
        "gelLog": quantiles(hold - shop.skin(), weights),
        "media": [
            {"name": name, "density": quantiles(shop.medium(name), weights)}
            for name in sorted({e["medium"] for e in evidence + problem["ask"] if "medium" in e})
        ],
    }
    picked = shop.random.choice(DRAWS, KEPT, p=weights / weights.sum())
    result["answers"] = []
    for ask in problem["ask"]:
        z = shop.thresholds(ask, days)
        result["answers"].append(dose_rule([each[picked] for each in z]))
    return result


def one_wedge(problem):
    """Hold dose of the set-up after one reading of the last solid step, by quadrature."""
    [wedge] = problem["evidence"]
    x = math.log10(wedge["doseLu"]) - WEDGE["firstDensity"]
    sd = math.sqrt(0.15**2 + 0.12**2 + 0.06**2 + 0.08**2 + 0.06**2)
    # Half a step of noise and the screen's own scatter, both normal, blur the ends of the interval.
    blur = math.hypot(0.5 * WEDGE["increment"], 0.05)
    step = WEDGE["increment"]
    from_, to = (x - step * (wedge["lastSolidStep"] - at) for at in (0, 1))

    def weight(z):
        reading = norm.cdf((to - z) / blur) - norm.cdf((from_ - z) / blur)
        return norm.pdf(z, 1.013, sd) * reading

    def below(z):
        return integrate.quad(weight, 1.013 - 9 * sd, z, limit=200)[0]

    whole = below(1.013 + 9 * sd)
    low, value, high = (
        optimize.brentq(lambda z: below(z) / whole - part, 0, 2.5) for part in (0.05, 0.5, 0.95)
    )
    return {"holdLog": {"value": value, "low": low, "high": high}}


def wedge(dose, solid, day, clear=None, **place):
    more = {} if clear is None else {"firstClearStep": clear}
    return {"kind": "wedge", "doseLu": dose, "lastSolidStep": solid, "day": day, **more, **place}


def screen(medium, dose, day, **more):
    return {"kind": "outcome", "medium": medium, "doseLu": dose, "day": day, **more}


def strip(medium, day, grades, **place):
    bands = [{"doseLu": dose, "grade": grade} for dose, grade in grades]
    return {"kind": "strip", "medium": medium, "day": day, "bands": bands, **place}


HOUSE = {"unit": "lamp", "emulsion": "A", "fabric": "90-48"}
PENCIL_STRIP = [(20, "soft"), (28, "good"), (39, "good"), (55, "filling"), (77, "filled")]
INK_STRIP = [(15, "washed off"), (30, "soft"), (60, "good"), (85, "good"), (120, "filling")]

ALONE = {
    "a wedge that held far more than expected": [wedge(60, 9, 1, **HOUSE)],
    "a wedge that held as expected": [wedge(57, 5, 1, **HOUSE)],
    "a wedge of which hardly a step held": [wedge(40, 1, 1, **HOUSE)],
}

SAMPLED = {
    "both ends of a wedge": (
        [wedge(60, 6, 1, clear=8, **HOUSE)],
        [{"medium": "soft pencil", "day": 1, **HOUSE}],
    ),
    "a strip alone": (
        [strip("soft pencil", 1, PENCIL_STRIP, **HOUSE)],
        [{"medium": "soft pencil", "day": 1, **HOUSE}],
    ),
    "a wedge and a screen that share their coating, and a strip of another medium": (
        [
            wedge(60, 7, 1, clear=8, screen="7", **HOUSE),
            screen("soft pencil", 45, 1, grade="filling", screen="7", **HOUSE),
            strip("drawing ink", 1, INK_STRIP, **HOUSE),
        ],
        [
            {"medium": "soft pencil", "day": 1, **HOUSE},
            {"medium": "drawing ink", "day": 1, **HOUSE},
        ],
    ),
    "two ticks, another bucket, dyed cloth and paper": (
        [
            screen("soft pencil", 40, 1, ground="soft", marks="filling", **HOUSE),
            wedge(60, 5, 1, **HOUSE),
            screen("drawing ink", 90, 1, ground="sound", marks="open", **{**HOUSE, "dyed": True}),
        ],
        [
            {"medium": "soft pencil", "day": 1, **HOUSE},
            {"medium": "drawing ink", "day": 1, **HOUSE, "emulsion": "B", "baseDensity": 0.35},
        ],
    ),
    "weeks between the readings": (
        [
            wedge(60, 6, 1, clear=8, **HOUSE),
            wedge(60, 6, 15, clear=7, **HOUSE),
            wedge(60, 4, 29, clear=5, **HOUSE),
            screen("soft pencil", 38, 36, grade="good", **HOUSE),
        ],
        [{"medium": "soft pencil", "day": 50, **HOUSE}],
    ),
}

if __name__ == "__main__":
    cases = []
    for name, evidence in ALONE.items():
        problem = {"wedge": WEDGE, "evidence": evidence, "ask": []}
        cases.append({"name": name, "problem": problem, "expected": one_wedge(problem)})
    for seed, (name, (evidence, ask)) in enumerate(SAMPLED.items()):
        problem = {"wedge": WEDGE, "evidence": evidence, "ask": ask}
        cases.append({"name": name, "problem": problem, "expected": answers(problem, seed)})
    source = "oracles/calibration.py, numpy 1.24.2, scipy 1.10.1"
    round_all = json.loads(json.dumps(cases), parse_float=lambda text: round(float(text), 5))
    print(json.dumps({"source": source, "cases": round_all}, indent=1))
