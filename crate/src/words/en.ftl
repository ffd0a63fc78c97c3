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
group-controls = Controls
group-transformer = Transformer
group-level = Level
group-signal = Signal
group-converter = Converter

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

mark-single-coil = single coil
mark-two-coil = two-coil
mark-bass-coil = bass
mark-track-250 = usual with single coils
mark-track-500 = usual with two-coil pickups
mark-track-1000 = bright
mark-tone-small = gentle
mark-tone-usual = usual for guitar
mark-tone-large = usual for bass
mark-lead-low = low-capacitance lead
mark-lead-usual = usual lead
mark-lead-high = old or thin lead
mark-isolator = isolator
mark-box-10 = passive box
mark-box-12 = passive box

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
part-winding = winding capacitance
part-tone = tone control
part-volume = volume control
part-lead = lead
part-primary = primary winding
part-secondary = secondary winding
part-primary-capacitance = primary capacitance
part-secondary-capacitance = secondary capacitance
part-core = core
part-turns = turns ratio

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
common-load_c = Load capacitance
    .help = Across the load, in picofarads.
common-lead_length = Lead length
    .help = From plug to plug.
common-lead_c = Lead capacitance per metre
    .help = Between the conductors that carry the signal. The maker's sheet says it.
common-lead_r = Lead resistance per metre
    .help = Both conductors together.
common-lead_l = Lead inductance per metre
    .help = Both conductors together.
common-mains = Mains frequency
    .help = Of the place where you work.
common-mains-50 = 50 Hz
common-mains-60 = 60 Hz
common-coil_l = Pickup inductance
    .help = Of one coil. Single coils have 2 to 4 H, two-coil pickups 4 to 8 H.
common-coil_r = Pickup resistance
    .help = Of one coil, as a meter reads it.
common-coil_c = Winding capacitance
    .help = Of one coil.
common-coil_loss = Loss resistance
    .help = Eddy currents, as a resistance parallel to the inductance. Empty for none.
common-coils = Coils
    .help = One coil, or two equal ones in series or in parallel.
common-coils-one = one
common-coils-series = two in series
common-coils-parallel = two in parallel
common-coupling = Coupling of the coils
    .help = Mutual inductance over the inductance of one coil; below 1, as no two coils share all of their flux.
common-phase = Phase of the coils
    .help = In phase the mutual inductance adds, out of phase it subtracts.
common-phase-in = in phase
common-phase-out = out of phase
common-volume = Volume control
    .help = “Not fitted” means no path to ground at all, not a large resistance.
common-volume-fitted = fitted
common-volume-none = not fitted
common-volume_r = Volume track
    .help = Resistance of the whole track.
common-volume_turn = Volume turned to
    .help = 100 % is full up.
common-tone = Tone control
    .help = Before or after the volume control, seen from the coil; “not fitted” means no path at all.
common-tone-before = before volume
common-tone-after = after volume
common-tone-none = not fitted
common-tone_r = Tone track
    .help = Resistance of the whole track.
common-tone_c = Tone capacitor
    .help = From the track to ground.
common-tone_turn = Tone turned to
    .help = 100 % is full up, with the whole track in series with the capacitor.
common-taper = Law of the controls
    .help = Audio: a tenth of the track at half a turn, a = (81^x − 1)/80. Linear: a = x.
common-taper-linear = linear
common-taper-audio = audio
common-ratio = Turns ratio
    .help = Primary to secondary, such as 12:1.
common-r1 = Primary resistance
    .help = Of the winding, as a meter reads it.
common-r2 = Secondary resistance
    .help = Of the winding, as a meter reads it.
common-magnetising = Magnetising inductance
    .help = Seen from the primary at low level. Empty for an ideal core.
common-core_loss = Core-loss resistance
    .help = Parallel to the magnetising inductance. Empty for none.
common-leakage = Leakage inductance
    .help = Referred to the primary.
common-c1 = Primary capacitance
    .help = Across the primary winding.
common-c2 = Secondary capacitance
    .help = Across the secondary winding.
common-largest = Largest level at 20 Hz
    .help = On the primary, before the core saturates.
common-alignment = Alignment
    .help = Which analogue level is full scale of the converter.
common-alignment-r68 = EBU R 68, 0 dBu at −18 dBFS
common-alignment-rp155 = SMPTE RP 155, +4 dBu at −20 dBFS
common-alignment-own = own
common-full_scale = Full scale is
    .help = The level of a sine that just reaches full scale.
common-full_scale_level = Full scale is
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

## Cautions

caution-earth = Never lift, cut or bypass a safety earth, whatever hums. It is what keeps metalwork from killing someone when a wire comes loose.
caution-electrician = If anything tingles, sparks, smells or trips a breaker: stop, keep people away, switch off at the distribution, and call a licensed electrician. Local codes come before anything shown here.
caution-phantom = Mute before phantom power is switched or a lead with phantom on it is plugged: the thump can damage ears and loudspeakers.
caution-hearing = Turn levels down before you connect or change anything, and bring them up slowly: sudden level harms hearing.

## Sources of formulas

source-divider = Voltage divider and Thévenin source: any circuit-theory text; terms of IEC 60050-131.
source-chain = Chain matrices: IEC 60050-131; D. M. Pozar, Microwave Engineering.
source-power = Available power and maximum power transfer: P. Horowitz and W. Hill, The Art of Electronics.
source-pickup = Pickup model: e.m.f. behind R and L with winding capacitance, f₀ = 1/(2π√(LC)); any circuit-theory text.
source-whitlock = B. Whitlock, Balanced Lines in Audio Systems: Fact, Fiction, and Transformers, J. Audio Eng. Soc. 43(6), 1995.
source-levels = Logarithmic quantities and 0 dBu: IEC 60027-3. Full scale as the r.m.s. level of a full-scale sine.
source-r68 = EBU R 68: alignment at −18 dBFS; with the usual 0 dBu (ITU-R BS.645) full scale is +18 dBu.
source-rp155 = SMPTE RP 155: alignment at −20 dBFS; with the usual +4 dBu (common practice) full scale is +24 dBu.
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
source-load-level_dbu = The same in dBu
source-load-phase = Phase at { $f }
source-load-phase_step = Phase of the transfer
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
source-load-qz = Real part of q*·Z_S
source-load-least_g = Largest load conductance for that loss

## Pickup, lead and load

pickup = Pickup, lead and load
    .purpose = What a passive guitar or bass pickup makes of its lead and of what it is plugged into.
pickup-frequency = Frequency to compare at
    .help = Where the loss of treble is given.
pickup-peak = Resonance
    .none = none: damped away
pickup-peak_height = Height over 1 kHz
    .none = no peak
pickup-verdict-none = the load has damped the resonance away: dull
pickup-verdict-flat = nearly flat: a darker tone than the pickup's own
pickup-verdict-open = the pickup keeps its resonance
pickup-load_loss = What the load takes at { $f }
pickup-verdict-light = the load is light enough not to be heard
pickup-verdict-audible = audible: some treble goes
pickup-verdict-heavy = heavy: most of the treble goes
pickup-level_at = Level at { $f } re e.m.f.
pickup-change_at = Level at { $f } re 1 kHz
pickup-level_1k = Level at 1 kHz re e.m.f.
pickup-peak_level = Level at resonance re e.m.f.
    .none = no peak
pickup-total_c = Capacitance on the coil
pickup-free_resonance = Resonance without losses
pickup-impedance_1k = Impedance of the rig at 1 kHz
pickup-out-of-phase = Out of phase the two coils' voltages mostly cancel; levels here are relative to what is left.
fault-volume-zero = Turned to zero the volume control shorts the output: there is no signal to compute. Turn it up.
pickup-response = Level over frequency
    .summary = Resonance: { $peak }, height over 1 kHz: { $height }. The load takes { $loss } at { $f }.
pickup-curve = into this load
pickup-curve-unloaded = into 10 MΩ, same lead
pickup-preset-four = Same guitar, four ways in
pickup-preset-bass = Bass on a six-metre lead
pickup-preset-two-coil = Two coils in series

## Transformer

transformer = Transformer
    .purpose = What a turns ratio and a real core do to impedance, level and band.
transformer-source_l = Source inductance
    .help = In series with the source resistance.
transformer-z_in = Impedance it shows the source, 1 kHz
transformer-verdict-light = light on this source
transformer-verdict-loading = loads this source audibly
transformer-verdict-heavy = too low for this source
transformer-level = Level at the load, 1 kHz, re e.m.f.
transformer-z_out = Impedance it shows the load, 1 kHz
transformer-ideal_level = Step of the ratio alone
transformer-reflected_load = Load seen from the source, ideal
transformer-reflected_source = Source seen from the load, ideal
transformer-insertion_loss = Insertion loss at 1 kHz
transformer-low_estimate = Low corner from the formula
transformer-parallel = Source and reflected load in parallel
transformer-largest_20 = Largest level at 20 Hz, primary
transformer-largest_40 = Largest level at 40 Hz, primary
transformer-largest_80 = Largest level at 80 Hz, primary
transformer-largest_20_load = and at the load, 20 Hz
transformer-largest_40_load = and at the load, 40 Hz
transformer-largest_80_load = and at the load, 80 Hz
transformer-response = Level at the load over frequency
    .summary = At 1 kHz the level at the load is { $level } re e.m.f.
transformer-curve = through the transformer
transformer-curve-straight = source straight into the load
transformer-preset-box = Passive box on a microphone input
transformer-preset-isolator = One-to-one isolator on a line

## Levels

levels = Levels
    .purpose = One level in every unit of the trade: dBu, dBV, dBm, volts, dBFS.
levels-level = Level
    .help = With its unit, such as -10 dBV, +4 dBu, 1.23 V, 2 Vpp or -18 dBFS.
levels-unit = Unit
    .help = Of the level; a unit written behind the number sets it.
levels-unit-dbu = dBu
levels-unit-dbv = dBV
levels-unit-dbm = dBm
levels-unit-dbfs = dBFS
levels-unit-volt = V rms
levels-unit-volt_peak = V peak
levels-unit-volt_pp = V peak to peak
levels-crest = Crest factor
    .help = Peak over r.m.s.: 3 dB for a sine, 10 to 20 dB for music.
levels-power_r = Resistance for dBm
    .help = dBm is a power: it needs the resistance that takes it.
levels-reference = Voltage of 0 dBu
levels-volts = Voltage, rms
levels-dbu = Level in dBu
levels-dbv = Level in dBV
levels-power = Power into that resistance
levels-dbm = Level in dBm
levels-dbfs = Level in dBFS
levels-verdict-clips = the peaks clip the converter
levels-verdict-near = the peaks are within 3 dB of full scale
levels-verdict-room = the peaks fit below full scale
levels-volts_peak = Peak voltage
levels-volts_peak_to_peak = Peak to peak, same on both sides
levels-peak_level = Peaks, re a full-scale sine's
levels-preset-consumer = Consumer line level
levels-preset-professional = Professional line level
levels-preset-speech = Speech at digital alignment
fault-volts-positive = A voltage is more than zero: write it without a minus, such as 0.2 or 200 mV.
