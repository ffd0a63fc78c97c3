# Every word that a reader of Stageohm sees, in English.
# Syntax: Fluent, of which terms, selectors and functions are not used.

## What a person may write

accept-one = a number, such as 2 or 0.5
accept-ratio = a ratio, such as 12:1 or 12
accept-percent = a share, such as 50 or 50 %
accept-ohm = a resistance, such as 150, 4k7, 10 kΩ or 1M
accept-henry = an inductance, such as 2.5, 2.5 H or 60 mH
accept-farad = a capacitance, such as 470 pF, 2n2 or 22n
accept-hertz = a frequency, such as 1000, 1k or 5 kHz
accept-volt = a voltage or level, such as 0.2, 200 mV, -10 dBV or +4 dBu
accept-volt_peak = a voltage, such as 1 or 500 mV
accept-metre = a length, such as 5, 5 m or 15 ft
accept-square_metre = an area, such as 2 or 2 m²
accept-ohm_per_metre = a resistance per length, such as 0.1 or 0.03 Ω/ft
accept-henry_per_metre = an inductance per length, such as 0.6 µH/m
accept-farad_per_metre = a capacitance per length, such as 100, 100 pF/m or 30 pF/ft
accept-tesla = a flux density, such as 1 µT
accept-kelvin = a temperature, such as 20 or 20 °C
accept-volt_noise = a noise voltage, such as 5 nV
accept-ampere_noise = a noise current, such as 0.1 pA
accept-degree = an angle, such as 90
accept-decibel = a level, such as -10 or 4 dB
accept-other = a number, such as 2 or 5m

problem-empty = This is needed for the answer: write { $accepted }.
problem-number = “{ $text }” is not a number: write { $accepted }.
problem-unit = “{ $unit }” is not a unit of this field: write { $accepted }.
problem-size = This number is too large or too small to compute with: write { $accepted }.
problem-ambiguous = “{ $text }” can be read as { $first } or as { $second }: choose one.
problem-limits = { $value } cannot be computed with: from { $from } to { $to } can.
problem-choice = “{ $text }” is not one of: { $known }.
problem-field = There is no field “{ $id }” here; the rest is used.
problem-calculator = There is no calculator “{ $id }”. There are: { $known }.
fault-internal = A mistake of ours, not of yours: { $what }. What you typed is kept.
note-unusual = Outside what is usual ({ $from } to { $to }).

backwards-none = No value from { $from } to { $to } gives this.
backwards-one = One value gives this.
backwards-many = { $count } values give this.
backwards-reading = There is no reading “{ $id }” here.
backwards-field = “{ $id }” is not a number field of this calculator.
backwards-value = Write the wanted value, such as { $example }.

## Stops on the signal's way

group-source = Source
group-lead = Lead
group-load = Load
group-question = Question

## Typical values

mark-active-box = active output, one leg
mark-microphone = dynamic microphone
mark-line-600 = 600 Ω line
mark-keyboard = keyboard
mark-coil = pickup at low frequencies
mark-microphone-input = microphone input
mark-line-input = line input
mark-passive-box = passive box
mark-instrument-input = instrument input, active box

## Bands of the trade

band-sub = sub
band-bass = bass
band-low-mid = low mids
band-mid = mids
band-high-mid = high mids
band-presence = presence
band-air = air

## Parts

part-source = source
part-load = load
part-source-capacitance = source capacitance
part-load-capacitance = load capacitance
part-coupling = coupling capacitor

## Shared by calculators

common-axis-frequency = Frequency
common-axis-level = Level re e.m.f.
common-marker-peak = resonance { $f }, { $level }
common-marker-low = −3 dB at { $f }
common-marker-high = −3 dB at { $f }
common-source_r = Source resistance
    .help = What the source puts in series with its own voltage.
common-load_r = Load resistance
    .help = The input resistance of what comes next.
common-frequency = Frequency
    .help = The frequency at which single numbers are given.
common-low_corner = Low −3 dB corner
    .none = none above 0.01 Hz
common-high_corner = High −3 dB corner
    .none = none below 10 MHz
common-walk-omega = Angular frequency
common-walk-load = Current into the load at one volt across it
common-walk-emf = The e.m.f. that this takes
common-walk-transfer = Transfer, load voltage over e.m.f.
common-walk-level = Level at the load re e.m.f.
common-walk-impedance = Impedance: { $part }
common-walk-admittance = Admittance: { $part }
common-walk-volts = Voltage before the { $part }
common-walk-amperes = Current before the { $part }
common-walk-line = Exact line: { $part }

## Sources of formulas

source-divider = Voltage divider and Thévenin source: any circuit-theory text; terms of IEC 60050-131.
source-chain = Chain matrices: IEC 60050-131; D. M. Pozar, Microwave Engineering.
source-power = Available power and maximum power transfer: P. Horowitz and W. Hill, The Art of Electronics.
source-practice = Typical values: common practice, no published source.

## Source into load

source-load = Source into load
    .purpose = What a load does to a source: loss, phase, current and power.
source-load-source_l = Source inductance
    .help = In series with the source resistance. 0 for most electronic outputs.
source-load-source_c = Source capacitance
    .help = Across the source's terminals, lead included.
source-load-coupling_c = Coupling capacitor
    .help = In series with the source. Leave empty where there is none.
source-load-load_c = Load capacitance
    .help = Across the load.
source-load-emf = Source level, open
    .help = The source's voltage with nothing connected.
source-load-limit = Loss to stay under
    .help = The most loss that you accept, for the smallest load that keeps it.
source-load-loss = Loss at { $f }
source-load-ratio = Load over source
source-load-verdict-bridging = bridging: the load takes almost no power and costs almost no level
source-load-verdict-half-bridging = loads the source; level and perhaps tone are lost
source-load-verdict-matched = near matching: about half the voltage is gone
source-load-verdict-overload = the load is smaller than the source: most of the level is lost
source-load-level = Level at the load
source-load-phase = Phase at { $f }
source-load-current = Current
source-load-power = Power into the load
source-load-available = Power the source has available
    .none = unlimited: no resistance in the source
source-load-power_loss = Power re available
    .none = not defined: no resistance in the source
source-load-least_load = Smallest load for that loss
    .none = no resistance is enough: the capacitances alone lose more
source-load-z_source = Size of the source impedance
source-load-z_load = Size of the load impedance
source-load-response = Level at the load over frequency
    .summary = At 1 kHz the load loses { $loss }.
source-load-response-curve = into this load
source-load-by-load = Loss against load resistance
    .summary = The loss at { $f } for load resistances from a hundredth to a thousand times the source.
source-load-by-load-curve = loss at this frequency
source-load-axis-load = Load resistance
source-load-axis-loss = Level re e.m.f.
source-load-marker-load = this load
source-load-z = Source impedance
source-load-zl = Load impedance
source-load-admittance = Admittance across the source, without the load resistance
source-load-q = Unloaded factor
source-load-preset-keys = Keyboard into a stage box line input
source-load-preset-six_hundred = Old 600 Ω output into a 600 Ω input
