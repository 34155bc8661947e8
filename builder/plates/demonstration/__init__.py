"""The plates of the demonstration, a module a family, by the id of the assembly."""

from __future__ import annotations

from collections.abc import Callable

from plates.demonstration import crankcase, drives, fuel, governing, ignition, oil_filters, oil_pumps, water
from plates.plate import Plate

PLATES: dict[str, Callable[[], Plate]] = {
    "edge-strainer": oil_filters.edge_strainer,
    "duplex-strainer": oil_filters.duplex_strainer,
    "waste-packed-filter": oil_filters.waste_packed_filter,
    "cartridge-filter": oil_filters.cartridge_filter,
    "d-twin-cartridge": oil_filters.twin_cartridge,
    "ball-relief-valve": oil_filters.ball_relief_valve,
    "poppet-relief-valve": oil_filters.poppet_relief_valve,
    "gear-pump-narrow": oil_pumps.gear_pump_narrow,
    "gear-pump-wide": oil_pumps.gear_pump_wide,
    "d-gear-pump": oil_pumps.d_gear_pump,
    "plunger-oil-pump": oil_pumps.plunger_oil_pump,
    "gauze-sump-strainer": oil_pumps.gauze_sump_strainer,
    "d-sump-strainer": oil_pumps.d_sump_strainer,
    "mushroom-breather": crankcase.mushroom_breather,
    "baffle-breather": crankcase.baffle_breather,
    "closed-breather": crankcase.closed_breather,
    "two-nut-door": crankcase.two_nut_door,
    "six-nut-door": crankcase.six_nut_door,
    "d-plated-door": crankcase.d_plated_door,
    "plunger-water-pump": water.plunger_water_pump,
    "rubber-impeller-pump": water.rubber_impeller_pump,
    "gear-water-pump": water.gear_water_pump,
    "d-centrifugal-pump": water.d_centrifugal_pump,
    "tube-cooler": water.tube_cooler,
    "plate-cooler": water.plate_cooler,
    "bellows-thermostat": water.bellows_thermostat,
    "bowl-fuel-filter": fuel.bowl_fuel_filter,
    "felt-fuel-filter": fuel.felt_fuel_filter,
    "d-settling-pot": fuel.d_settling_pot,
    "diaphragm-pump": fuel.diaphragm_pump,
    "twin-diaphragm-pump": fuel.twin_diaphragm_pump,
    "d-diaphragm-pump": fuel.d_diaphragm_pump,
    "d-plunger-fuel-pump": fuel.d_plunger_fuel_pump,
    "cone-clutch": drives.cone_clutch,
    "plate-clutch": drives.plate_clutch,
    "plain-coupling": drives.plain_coupling,
    "ratchet-coupling": drives.ratchet_coupling,
    "d-coupling": drives.d_coupling,
    "flyball-governor": governing.flyball_governor,
    "cam-governor": governing.cam_governor,
    "enclosed-governor": governing.enclosed_governor,
    "d-governor": governing.d_governor,
    "flange-magneto": ignition.flange_magneto,
    "low-tension-magneto": ignition.low_tension_magneto,
    "base-magneto": ignition.base_magneto,
}
