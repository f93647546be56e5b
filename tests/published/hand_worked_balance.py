#!/usr/bin/env python3
"""Works a textbook field through 24 days by the published equations alone and writes
hand_worked_balance.csv beside this file. It shares nothing with the daemon.

Source of every equation: Allen, Pereira, Raes and Smith (1998), FAO Irrigation and Drainage Paper
56; the order of the day is that of p. 156, with water early in the day (Examples 35 and 38).
"""
import csv
import pathlib

# A loam, uniform, m3/m3; grass-like crop by its numbers.
FIELD_CAPACITY, WILTING_POINT = 0.32, 0.15
ROOTS_M, KCB, COVER, HEIGHT_M, TABLE_P = 0.6, 0.95, 0.70, 0.4, 0.50
REW_MM = 8.0
WIND_M_S, RH_MIN_PCT = 2.6, 55.0
FURROW_FW = 0.25  # every fourth part of the ground is wetted by irrigation

TAW_MM = 1000 * (FIELD_CAPACITY - WILTING_POINT) * ROOTS_M  # Eq. 82: 102 mm
TEW_MM = 1000 * (FIELD_CAPACITY - 0.5 * WILTING_POINT) * 0.10  # Eq. 73: 24.5 mm
KC_MAX = max(  # Eq. 72
    1.2 + (0.04 * (WIND_M_S - 2) - 0.004 * (RH_MIN_PCT - 45)) * (HEIGHT_M / 3) ** 0.3,
    KCB + 0.05,
)

# rain, irrigation, ET0, mm: a dry spell, an irrigation by furrows, rain too small to wet all the
# ground, more drought into stress, a storm that percolates, showers.
DAYS = [
    (0.0, 0.0, 4.2), (0.0, 0.0, 4.8), (0.0, 0.0, 5.1), (12.0, 0.0, 2.3), (0.0, 0.0, 4.4),
    (0.0, 0.0, 5.3), (0.0, 25.0, 5.6), (1.5, 0.0, 3.9), (0.0, 0.0, 5.0), (0.0, 0.0, 5.7),
    (0.0, 0.0, 6.1), (0.0, 0.0, 6.0), (0.0, 0.0, 5.8), (0.0, 0.0, 6.2), (0.0, 0.0, 5.9),
    (0.0, 0.0, 5.5), (0.0, 0.0, 5.2), (2.5, 0.0, 3.1), (68.0, 0.0, 1.4), (41.0, 0.0, 1.1),
    (0.0, 0.0, 3.6), (6.0, 0.0, 2.8), (0.0, 0.0, 3.9), (0.0, 0.0, 4.5),
]

COLUMNS = (
    "day rain_mm irrigation_mm et0_mm fw few de_start_mm kr ke evaporation_mm p dr_start_mm ks "
    "transpiration_mm etc_mm percolation_mm de_mm dr_mm"
).split()


def rows():
    de, dr, fw = TEW_MM, 35.0, 1.0  # the surface dry, 35 mm missing in the root zone
    for number, (rain, irrigation, et0) in enumerate(DAYS, start=1):
        # fw, p. 149 with its errata: rain of 3 mm or more wets all, else irrigation its own share.
        if rain >= 3.0:
            fw = 1.0
        elif irrigation > 0.0:
            fw = FURROW_FW
        few = min(1 - COVER, fw)  # Eq. 75
        de_start = max(de - rain - irrigation / fw, 0.0)  # Example 35, note 9
        kr = 1.0 if de_start <= REW_MM else (TEW_MM - de_start) / (TEW_MM - REW_MM)  # Eq. 74
        ke = min(kr * (KC_MAX - KCB), few * KC_MAX)  # Eq. 71
        evaporation = ke * et0
        p = min(max(TABLE_P + 0.04 * (5 - (KCB + ke) * et0), 0.1), 0.8)  # p. 162
        dr_start = max(dr - rain - irrigation, 0.0)  # Example 38, note 5
        ks = min(1.0, (TAW_MM - dr_start) / ((1 - p) * TAW_MM))  # Eq. 84
        transpiration = ks * KCB * et0
        etc = evaporation + transpiration  # Eq. 80
        percolation = max(rain + irrigation - etc - dr, 0.0)  # Eq. 88
        dpe = max(rain + irrigation / fw - de, 0.0)  # Eq. 79
        de = min(max(de - rain - irrigation / fw + evaporation / few + dpe, 0.0), TEW_MM)  # Eq. 77, 78
        dr = min(max(dr - rain - irrigation + etc + percolation, 0.0), TAW_MM)  # Eq. 85, 86
        yield (number, rain, irrigation, et0, fw, few, de_start, kr, ke, evaporation, p, dr_start,
               ks, transpiration, etc, percolation, de, dr)


with open(pathlib.Path(__file__).with_suffix(".csv"), "w", newline="", encoding="ascii") as file:
    table = csv.writer(file, lineterminator="\n")
    table.writerow(COLUMNS)
    for row in rows():
        table.writerow([row[0], *(f"{value:.1f}" for value in row[1:4]),
                        *(f"{value:.4f}" for value in row[4:])])
