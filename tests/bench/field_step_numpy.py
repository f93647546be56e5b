#!/usr/bin/python3
"""The field step's equations in numpy, over all fields of a class at once: what the batch is measured against.

Usage: field_step_numpy.py SAMPLE.json
SAMPLE.json comes from `bench_field_step --sample`. Fails if a sampled field differs from ours by more
than 1e-9 mm. Prints the field-days a second of a million fields, one day a pass, rain every day, on one core.
"""
import json
import sys
import time

import numpy as np

TOLERANCE = 1e-9
TOPSOIL = 2  # layers
SEALED_STORAGE_MM = 0.8187 * 5.0395
SIGNIFICANT_RAIN_MM = 3.0
LAST_DROP_MM = 1e-12


class Water:
    """State of many fields of one class; excess_mm has a row for each layer."""

    def __init__(self, given):
        self.excess = np.array(given["excess_mm"])
        self.surface = np.array(given["surface_depletion_mm"])
        self.pond = np.array(given["pond_mm"])
        self.wetted = np.array(given["wetted_fraction"])
        self.at_capacity = np.array(given["at_capacity"])
        self.waterlogged = np.array(given["waterlogged"])

    def copies(self, times):
        for name, value in vars(self).items():
            setattr(self, name, np.tile(value, times))
        return self


def deficits(excess):
    return np.maximum(0.0, -excess)


def storm_runoff(c, rain, water):
    """Curve number with initial abstraction 0.05 S."""
    short = deficits(water.excess).sum(axis=0)
    storage = np.minimum(c["storage_dry_mm"], c["storage_wet_mm"] + 0.95 * short)
    above = np.maximum(0.0, rain - 0.05 * storage)
    return above * above / (rain + 0.95 * storage)


def fill_through_cracks(c, offered, water):
    if c["crack_share"] <= 0.0:
        return 0.0
    short = deficits(water.excess[:TOPSOIL]).sum(axis=0)
    dryness = np.minimum(1.0, short / c["topsoil_available_mm"])
    begun = c["crack_share"] * dryness * offered
    left = begun
    for layer in range(TOPSOIL, len(water.excess)):
        taken = np.minimum(left, deficits(water.excess[layer]))
        water.excess[layer] += taken
        left = left - taken
    return begun - left


def hand_down(c, falling, water):
    for layer, excess in enumerate(water.excess):
        held = excess + falling
        mobile = np.maximum(0.0, held)
        released = np.maximum(mobile * c["release_share"][layer], np.minimum(mobile, LAST_DROP_MM))
        limit = c["pass_limit_mm"][layer]
        if layer == c["slow_layer"]:
            limit = limit + deficits(water.excess[layer + 1:]).sum(axis=0)
        falling = np.minimum(released, limit)
        water.excess[layer] = held - falling
    return falling


def root_depletion(c, water):
    return np.minimum(deficits(water.excess), c["rooted_available_mm"][:, None]).sum(axis=0)


def demand(c, et0, entering, water):
    """FAO-56 Eq. 71, 74, 75, 84 and p by the day's ETc."""
    few = np.minimum(1.0 - c["cover"], water.wetted)
    surface = np.maximum(0.0, water.surface - entering)
    kr = np.clip((c["tew_mm"] - surface) / (c["tew_mm"] - c["rew_mm"]), 0.0, 1.0)
    ke = np.minimum(kr * (c["kc_max"] - c["kcb"]), few * c["kc_max"])
    p = np.clip(c["depletion_fraction"] + 0.04 * (5.0 - (c["kcb"] + ke) * et0), 0.1, 0.8)
    available = c["total_available_mm"]
    ks = np.clip((available - root_depletion(c, water)) / ((1.0 - p) * available), 0.0, 1.0)
    return few, surface, ke * et0, ks * c["kcb"] * et0


def reach(c, excess):
    held = np.maximum(0.0, excess + c["rooted_available_mm"][:, None])
    return np.where(c["rooted_share"][:, None] > 0.0, held, 0.0)


def take_from_the_top(c, wanted, water):
    in_reach = reach(c, water.excess)
    left = wanted
    for layer in range(len(water.excess)):
        taken = np.minimum(left, in_reach[layer])
        water.excess[layer] -= taken
        left = left - taken
        if not left.any():
            return


def take_by_roots(c, wanted, water):
    in_reach = reach(c, water.excess)
    available = c["rooted_available_mm"]
    share = np.divide(c["root_share"], available, out=np.zeros_like(available), where=available > 0.0)
    weight = share[:, None] * in_reach
    rate = wanted / np.maximum(weight.sum(axis=0), 1e-290)
    taken = rate * weight
    short = rate * share.max() > 1.0
    if short.any():
        taken = np.minimum(taken, in_reach)
        rest = in_reach - taken
        left = np.where(short, wanted - taken.sum(axis=0), 0.0)
        taken += np.minimum(1.0, left / np.maximum(rest.sum(axis=0), 1e-290)) * rest
    water.excess -= taken


def drain_by_pipes(c, water):
    left = c["pipe_rate_mm"]
    if left <= 0.0:
        return 0.0
    for layer in reversed(range(int(c["piped_layers"]))):
        taken = np.minimum(left, np.maximum(0.0, water.excess[layer]))
        water.excess[layer] -= taken
        left = left - taken
    return c["pipe_rate_mm"] - left


def back_up(c, water):
    rising = 0.0
    for layer in reversed(range(len(water.excess))):
        held = water.excess[layer] + rising
        rising = np.maximum(0.0, held - c["room_mm"][layer])
        water.excess[layer] = held - rising
    water.pond = np.minimum(rising, c["pond_limit_mm"])
    return rising - water.pond


def remember_wetness(c, water):
    fill = np.maximum(0.0, water.excess[:TOPSOIL]).sum(axis=0) / c["topsoil_room_mm"]
    fill = np.where(water.pond > 0.0, 1.0, fill)
    water.waterlogged = np.where(fill < 0.3, 0.0, np.where(fill < 0.5, water.waterlogged, 1.0))
    short = deficits(water.excess[:TOPSOIL]).sum(axis=0)
    stays = np.where(short > 3.0, 0.0, water.at_capacity)
    water.at_capacity = np.where(root_depletion(c, water) > 1.0, stays, 1.0)


def step(c, rain, et0, water):
    """One day without irrigation or frost."""
    storm = storm_runoff(c, rain, water)
    entering = rain - storm
    water.wetted = np.where(rain < SIGNIFICANT_RAIN_MM, water.wetted, 1.0)
    offered = entering + water.pond
    entered = offered - fill_through_cracks(c, offered, water)
    leaving = hand_down(c, entered, water)
    few, surface, evaporation, transpiration = demand(c, et0, entering, water)
    passing = np.minimum(leaving, entered)
    in_reach = passing + reach(c, water.excess).sum(axis=0)
    transpiration = np.minimum(transpiration, in_reach)
    evaporation = np.minimum(evaporation, in_reach - transpiration)
    evaporated = np.minimum(passing, evaporation)
    transpired = np.minimum(passing - evaporated, transpiration)
    drainage = leaving - evaporated - transpired
    take_from_the_top(c, evaporation - evaporated, water)
    take_by_roots(c, transpiration - transpired, water)
    pipes = drain_by_pipes(c, water)
    runoff = storm + back_up(c, water)
    water.surface = np.minimum(c["tew_mm"], surface + evaporation / few)
    remember_wetness(c, water)
    return {"evaporation_mm": evaporation, "transpiration_mm": transpiration, "runoff_mm": runoff,
            "drainage_mm": drainage, "pipe_drain_mm": pipes}


def with_arrays(numbers):
    return {key: np.array(value) if isinstance(value, list) else value for key, value in numbers.items()}


def largest_difference(sample):
    largest = 0.0
    for day in sample:
        water = Water(day["before"])
        fluxes = step(with_arrays(day["class"]), np.array(day["rain_mm"]), day["et0_mm"], water)
        pairs = [(value, vars(Water(day["after"]))[name]) for name, value in vars(water).items()]
        pairs += [(value, np.array(day["fluxes"][name])) for name, value in fluxes.items()]
        largest = max([largest] + [float(np.abs(ours - theirs).max()) for ours, theirs in pairs])
    return largest


def field_days_a_second(sample, fields_a_call):
    """A million fields, so many to a call, each call one class: numbers of the class are scalars."""
    times = fields_a_call // 64
    wet = [day for day in sample if min(day["rain_mm"]) > 0.0]
    calls = 10**6 // fields_a_call
    farm = [(with_arrays(day["class"]), np.tile(np.array(day["rain_mm"]), times), day["et0_mm"],
             Water(day["before"]).copies(times)) for day in (wet[i % len(wet)] for i in range(calls))]
    best = float("inf")
    for _ in range(5):
        began = time.thread_time()
        for numbers, rain, et0, water in farm:
            step(numbers, rain, et0, water)
        best = min(best, time.thread_time() - began)
    return calls * times * 64 / best


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        sample = json.load(file)
    largest = largest_difference(sample)
    print(f"numpy_largest_difference: {largest:.3g} mm")
    if not largest < TOLERANCE:
        sys.exit(f"field_step_numpy.py: differs from the field step by {largest} mm")
    whole = field_days_a_second(sample, 64 * 15625)
    print(f"numpy_million_fields_a_call: {whole:.0f} field-days/s")
    # Arrays that fit its caches suit numpy best; the size is tried for.
    best = max(field_days_a_second(sample, fields) for fields in (4096, 8192, 15616))
    print(f"numpy_best_size_of_call: {best:.0f} field-days/s")


if __name__ == "__main__":
    main()
