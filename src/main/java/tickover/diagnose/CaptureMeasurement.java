package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.dsp.RecordSpectrum;
import tickover.order.AngularResampler;
import tickover.order.ShaftAngle;

/**
 * Everything that the ranking needs to know of one capture; holds no samples.
 *
 * <p>In: samples and crank angle. Out: for each octave band the spectrum of its squared envelope
 * over crank orders, and the spectrum of the acceleration itself, both with what the engine repeats
 * every working cycle taken out. Cost: O(n log n) per band. Thread: any, one per capture.
 */
public final class CaptureMeasurement {
    /** Lower edges of the bands, octaves apart, Hz. */
    private static final double LOWEST_BAND_HZ = 300;

    /** Bands end at this share of the sample rate, clear of the sensor's own filter. */
    private static final double HIGHEST_BAND_RATIO = 0.45;

    /** A band narrower than this share of an octave is left out. */
    private static final double NARROWEST_BAND_RATIO = 1.3;

    private static final int FEW_HARMONICS = 4;
    private static final int MANY_HARMONICS = 10;

    /** Half width of what is left out at the engine's own lines: the window's main lobe. */
    private static final double BLIND_TURNS = 2.5;

    /** A capture with fewer turns than this has no order spectrum worth the name. */
    private static final double LEAST_TURNS = 20;

    private final CaptureLabel label;
    private final CaptureSummary summary;
    private final double turns;
    private final List<BandMeasurement> bands;
    private final OrderField motion;
    private final PatternScan motionScan;
    private final PatternScan lineScan;
    private final PatternScan trainScan;
    private final List<PartLevel> levels;
    private final List<QualityNote> notes;

    private CaptureMeasurement(
            CaptureInput input, SignalQuality quality, AngleGrid grid, DriveModel drive) {
        Engine engine = drive.vehicle().engine();
        this.label = input.label();
        this.turns = grid.turns();
        List<QualityNote> found = new ArrayList<>(quality.notes());
        this.summary = summarise(input);
        double blind = BLIND_TURNS / Math.max(1, turns);
        List<RecordSpectrum> spectra = new ArrayList<>();
        for (double[] channel : input.accelMps2()) {
            spectra.add(RecordSpectrum.of(centred(channel), input.sampleRateHz()));
        }
        this.bands = new ArrayList<>();
        List<double[]> envelopes = new ArrayList<>();
        double top = HIGHEST_BAND_RATIO * input.sampleRateHz();
        for (double lo = LOWEST_BAND_HZ; lo < top; lo *= 2) {
            double hi = Math.min(2 * lo, top);
            if (hi / lo >= NARROWEST_BAND_RATIO) {
                double[] envelope = envelope(spectra, lo, hi, grid);
                envelopes.add(envelope);
                bands.add(band(envelope, lo, hi, engine, blind));
            }
        }
        double[][] onAngle = onAngle(input);
        LineMeter meter = new LineMeter(onAngle, AngleGrid.STEPS_PER_TURN);
        this.motion = motion(onAngle, engine, blind);
        KnockMeter knocks =
                new KnockMeter(
                        envelopes,
                        bands.stream().map(BandMeasurement::field).toList(),
                        AngleGrid.STEPS_PER_TURN);
        this.levels = new PartLevels(drive, motion, meter, knocks).of(label.id());
        this.motionScan = PatternScan.of(motion, FEW_HARMONICS);
        this.lineScan = PatternScan.best(bands.stream().map(BandMeasurement::few).toList());
        this.trainScan = PatternScan.best(bands.stream().map(BandMeasurement::many).toList());
        if (top < 4 * LOWEST_BAND_HZ * 2) {
            found.add(
                    new QualityNote(
                            label.id(),
                            "narrow-band",
                            "Sampled at "
                                    + Math.round(input.sampleRateHz())
                                    + " Hz: too slow to hear early bearing damage, which rings"
                                    + " above 2 kHz."));
        }
        this.notes = List.copyOf(found);
    }

    /**
     * Measures one capture.
     *
     * @param input samples and crank angle
     * @param drive the vehicle's drive
     * @return the measurement
     * @throws UnusableCaptureException if the crank hardly turned, the signal does not move, or it
     *     was sampled too slowly
     */
    public static CaptureMeasurement of(CaptureInput input, DriveModel drive)
            throws UnusableCaptureException {
        Objects.requireNonNull(drive, "drive");
        requireSound(input);
        SignalQuality quality = SignalQuality.of(input);
        double durationS = input.accelMps2()[0].length / input.sampleRateHz();
        AngleGrid grid = new AngleGrid(input.angle(), quality, durationS);
        if (!(grid.turns() >= LEAST_TURNS)) {
            throw new UnusableCaptureException(
                    "too-few-turns",
                    String.format(
                            Locale.ROOT,
                            "The crank turned only %.0f times while it was recorded; record at"
                                    + " least %.0f turns.",
                            grid.turns(),
                            LEAST_TURNS));
        }
        return new CaptureMeasurement(input, quality, grid, drive);
    }

    /** Squared envelope of a band on even crank angle, channels summed, (m/s²)². */
    private static double[] envelope(
            List<RecordSpectrum> spectra, double loHz, double hiHz, AngleGrid grid) {
        double[] sum = new double[0];
        double rateHz = 0;
        for (RecordSpectrum spectrum : spectra) {
            var envelope = spectrum.squaredEnvelope(loHz, hiHz);
            double[] values = envelope.valuesSquared();
            rateHz = envelope.rateHz();
            if (sum.length == 0) {
                sum = values.clone();
            } else {
                for (int i = 0; i < sum.length; i++) {
                    sum[i] += values[i];
                }
            }
        }
        return grid.resample(sum, rateHz);
    }

    private static void requireSound(CaptureInput input) throws UnusableCaptureException {
        boolean moves = false;
        for (double[] channel : input.accelMps2()) {
            moves |= Arrays.stream(channel).anyMatch(v -> v != channel[0]);
        }
        if (!moves) {
            throw new UnusableCaptureException(
                    "flat", "The signal does not move: check the probe and its lead.");
        }
        double leastHz = LOWEST_BAND_HZ * NARROWEST_BAND_RATIO / HIGHEST_BAND_RATIO;
        if (!(input.sampleRateHz() >= leastHz)) {
            throw new UnusableCaptureException(
                    "too-slow",
                    String.format(
                            Locale.ROOT,
                            "Sampled at %.0f Hz: too slow to hear anything of bearings or knocks;"
                                    + " at least %.0f Hz are needed.",
                            input.sampleRateHz(),
                            leastHz));
        }
    }

    /** Without its mean: gravity would knock at both ends of the record. */
    private static double[] centred(double[] channel) {
        double mean = Arrays.stream(channel).average().orElse(0);
        double[] out = new double[channel.length];
        for (int i = 0; i < out.length; i++) {
            out[i] = channel[i] - mean;
        }
        return out;
    }

    private static BandMeasurement band(
            double[] series, double loHz, double hiHz, Engine engine, double blindOrders) {
        int binsPerCycle = (int) Math.rint(AngleGrid.STEPS_PER_TURN / engine.cycleOrder());
        int firings = (int) Math.rint(engine.firingOrders() / engine.cycleOrder());
        CycleProfile cycle = CycleProfile.of(series, binsPerCycle, firings);
        double[] relative = new double[series.length];
        double floor = 0.1 * cycle.level();
        for (int i = 0; i < series.length; i++) {
            // Dividing by the mean cycle weighs down the moments at which injectors and valves are
            // loud, and takes out what repeats every cycle.
            double usual = cycle.mean()[i % binsPerCycle] + floor;
            relative[i] = usual > 0 ? compress(series[i] / usual) : 0;
        }
        OrderField field =
                new OrderField(
                        AngleGrid.binOrders(series.length),
                        AngleGrid.power(relative),
                        engine.cycleOrder(),
                        blindOrders);
        return new BandMeasurement(
                loHz,
                hiHz,
                cycle.level(),
                field,
                PatternScan.of(field, FEW_HARMONICS),
                PatternScan.of(field, MANY_HARMONICS),
                cycle);
    }

    /** Bends single huge knocks down, so that one of them cannot paint the whole spectrum. */
    private static double compress(double ratio) {
        return ratio <= COMPRESS_FROM
                ? ratio
                : COMPRESS_FROM * (1 + Math.log(ratio / COMPRESS_FROM));
    }

    private static final double COMPRESS_FROM = 8;

    private static double[][] onAngle(CaptureInput input) {
        double[][] out = new double[input.accelMps2().length][];
        for (int i = 0; i < out.length; i++) {
            out[i] =
                    AngularResampler.resample(
                                    centred(input.accelMps2()[i]),
                                    input.sampleRateHz(),
                                    input.angle(),
                                    AngleGrid.STEPS_PER_TURN)
                            .values();
        }
        return out;
    }

    private static OrderField motion(double[][] onAngle, Engine engine, double blindOrders) {
        double[] power = new double[0];
        int binsPerCycle = (int) Math.rint(AngleGrid.STEPS_PER_TURN / engine.cycleOrder());
        for (double[] channel : onAngle) {
            double[] x = channel.clone();
            subtractMeanCycle(x, binsPerCycle);
            double[] p = AngleGrid.power(x);
            if (power.length == 0) {
                power = p;
            } else {
                for (int i = 0; i < p.length; i++) {
                    power[i] += p[i];
                }
            }
        }
        return new OrderField(
                AngleGrid.binOrders(onAngle[0].length), power, engine.cycleOrder(), blindOrders);
    }

    private static void subtractMeanCycle(double[] x, int binsPerCycle) {
        int cycles = x.length / binsPerCycle;
        if (cycles == 0) {
            return;
        }
        double[] mean = new double[binsPerCycle];
        for (int i = 0; i < cycles * binsPerCycle; i++) {
            mean[i % binsPerCycle] += x[i] / cycles;
        }
        for (int i = 0; i < x.length; i++) {
            x[i] -= mean[i % binsPerCycle];
        }
    }

    private static CaptureSummary summarise(CaptureInput input) {
        ShaftAngle angle = input.angle();
        double durationS = input.accelMps2()[0].length / input.sampleRateHz();
        double fromS = Math.max(0, angle.startS());
        double toS = Math.min(durationS, angle.endS());
        double mean = 60 * (angle.turnsAt(toS) - angle.turnsAt(fromS)) / (toS - fromS);
        double lowest = mean;
        double highest = mean;
        int looks = 40;
        for (int i = 0; i < looks; i++) {
            // Over half a second, so that the ripple within a turn does not count as a speed range.
            double a = fromS + (toS - fromS) * i / looks;
            double b = Math.min(toS, a + 0.5);
            if (b > a) {
                double rpm = 60 * (angle.turnsAt(b) - angle.turnsAt(a)) / (b - a);
                lowest = Math.min(lowest, rpm);
                highest = Math.max(highest, rpm);
            }
        }
        double total = 0;
        for (double[] x : input.accelMps2()) {
            double sum = 0;
            double squares = 0;
            for (double v : x) {
                sum += v;
                squares += v * v;
            }
            double m = sum / x.length;
            total += Math.max(0, squares / x.length - m * m);
        }
        return new CaptureSummary(
                input.label(),
                input.speedSource(),
                durationS,
                mean,
                Math.max(0, lowest),
                highest,
                Math.sqrt(total));
    }

    /**
     * Returns what the capture is of.
     *
     * @return its label
     */
    public CaptureLabel label() {
        return label;
    }

    /**
     * Returns what the capture was like as a whole.
     *
     * @return its summary
     */
    public CaptureSummary summary() {
        return summary;
    }

    /**
     * Returns what limits the capture.
     *
     * @return notes in words, may be empty
     */
    public List<QualityNote> notes() {
        return notes;
    }

    /**
     * Returns the level of every part.
     *
     * @return one per part of the drive that the capture covers, and one of the engine
     */
    public List<PartLevel> levels() {
        return levels;
    }

    double turns() {
        return turns;
    }

    List<BandMeasurement> bands() {
        return bands;
    }

    OrderField motion() {
        return motion;
    }

    PatternScan motionScan() {
        return motionScan;
    }

    /** The bands' best scan for lines of bearings. */
    PatternScan lineScan() {
        return lineScan;
    }

    /** The bands' best scan for trains of knocks. */
    PatternScan trainScan() {
        return trainScan;
    }
}
