package tickover.diagnose;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.dsp.RecordSpectrum;
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
    private static final int MANY_HARMONICS = 8;

    /** Half width of what is left out at the engine's own lines: the window's main lobe. */
    private static final double BLIND_TURNS = 2.5;

    /** A capture with fewer turns than this has no order spectrum worth the name. */
    private static final double LEAST_TURNS = 20;

    private final CaptureLabel label;
    private final CaptureSummary summary;
    private final double turns;
    private final List<BandMeasurement> bands;
    private final OrderField motion;
    private final RhythmScan motionScan;
    private final RhythmScan lineScan;
    private final RhythmScan trainScan;
    private final List<PartLevel> levels;
    private final List<QualityNote> notes;

    private CaptureMeasurement(
            CaptureInput input,
            SignalQuality quality,
            AngleGrid grid,
            Samples onAngle,
            DriveModel drive) {
        Engine engine = drive.vehicle().engine();
        this.label = input.label();
        this.turns = grid.turns();
        List<QualityNote> found = new ArrayList<>(quality.notes());
        this.summary = summarise(input, quality);
        double blind = BLIND_TURNS / Math.max(1, turns);
        List<RecordSpectrum> spectra = new ArrayList<>();
        for (double[] channel : onAngle.centred()) {
            spectra.add(RecordSpectrum.of(channel, input.sampleRateHz()));
        }
        this.bands = new ArrayList<>();
        List<double[]> envelopes = new ArrayList<>();
        double top = HIGHEST_BAND_RATIO * input.sampleRateHz();
        for (double lo = LOWEST_BAND_HZ; lo < top; lo *= 2) {
            double hi = Math.min(2 * lo, top);
            if (hi / lo >= NARROWEST_BAND_RATIO) {
                double[] envelope = envelope(spectra, lo, hi, grid);
                envelopes.add(envelope);
                bands.add(band(envelope, grid.usable(), lo, hi, engine, blind));
            }
        }
        this.motion = motion(onAngle, engine, blind);
        LineMeter meter =
                new LineMeter(onAngle.channels(), AngleGrid.STEPS_PER_TURN, onAngle.plan(), 0);
        KnockMeter knocks =
                new KnockMeter(
                        envelopes,
                        bands.stream().map(BandMeasurement::field).toList(),
                        AngleGrid.STEPS_PER_TURN,
                        onAngle.plan(),
                        onAngle.firstStep());
        this.levels = new PartLevels(drive, motion, meter, knocks).of(label.id());
        List<OrderField> fields = bands.stream().map(BandMeasurement::field).toList();
        this.motionScan = RhythmScan.of(List.of(motion), FEW_HARMONICS);
        RhythmScan[] scans = RhythmScan.ofEach(fields, FEW_HARMONICS, MANY_HARMONICS);
        this.lineScan = scans[0];
        this.trainScan = scans[1];
        if (top < 4 * LOWEST_BAND_HZ * 2) {
            found.add(
                    QualityNote.ofWhole(
                            label.id(),
                            QualityProblem.NARROW_BAND,
                            "Sampled at "
                                    + Math.round(input.sampleRateHz())
                                    + " Hz: too slow to hear early bearing damage, which rings"
                                    + " above 2 kHz."));
        }
        if (top > MountBand.limitHz(label.mount())) {
            found.add(
                    QualityNote.ofWhole(
                            label.id(),
                            QualityProblem.BAND_LIMIT,
                            MountBand.sentence(label.mount())));
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
        AngleGrid grid = new AngleGrid(input.angle(), quality, input.durationS());
        if (!(grid.turns() >= LEAST_TURNS)) {
            throw new UnusableCaptureException(
                    QualityProblem.TOO_FEW_TURNS,
                    String.format(
                            Locale.ROOT,
                            "The crank turned only %.0f times while it was recorded; record at"
                                    + " least %.0f turns.",
                            grid.turns(),
                            LEAST_TURNS));
        }
        Samples onAngle = Samples.of(input, quality, grid);
        if (!(grid.usableTurns() >= LEAST_TURNS && onAngle.plan().isEnough())) {
            throw new UnusableCaptureException(
                    QualityProblem.TOO_LITTLE_LEFT,
                    String.format(
                            Locale.ROOT,
                            "Only %.1f s of %.1f s can be used, the rest is ruled out (%s): repeat"
                                    + " this capture.",
                            quality.usableS(),
                            input.durationS(),
                            quality.notes().stream()
                                    .filter(n -> n.problem().rulesOut() && !n.ranges().isEmpty())
                                    .map(n -> n.problem().word().replace('-', ' '))
                                    .distinct()
                                    .collect(Collectors.joining(", "))));
        }
        return new CaptureMeasurement(input, quality, grid, onAngle, drive);
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
                    QualityProblem.FLAT, "The signal does not move: check the probe and its lead.");
        }
        double leastHz = LOWEST_BAND_HZ * NARROWEST_BAND_RATIO / HIGHEST_BAND_RATIO;
        if (!(input.sampleRateHz() >= leastHz)) {
            throw new UnusableCaptureException(
                    QualityProblem.TOO_SLOW,
                    String.format(
                            Locale.ROOT,
                            "Sampled at %.0f Hz: too slow to hear anything of bearings or knocks;"
                                    + " at least %.0f Hz are needed.",
                            input.sampleRateHz(),
                            leastHz));
        }
    }

    private static BandMeasurement band(
            double[] series,
            boolean[] usable,
            double loHz,
            double hiHz,
            Engine engine,
            double blindOrders) {
        int binsPerCycle = (int) Math.rint(AngleGrid.STEPS_PER_TURN / engine.cycleOrder());
        int firings = (int) Math.rint(engine.firingOrders() / engine.cycleOrder());
        CycleProfile cycle = CycleProfile.of(series, binsPerCycle, firings, usable);
        double[] relative = new double[series.length];
        double floor = 0.1 * cycle.level();
        for (int i = 0; i < series.length; i++) {
            // Dividing by the mean cycle weighs down the moments at which injectors and valves are
            // loud, and takes out what repeats every cycle.
            double usual = cycle.mean()[i % binsPerCycle] + floor;
            relative[i] = usual > 0 ? compress(series[i] / usual) : 0;
        }
        AngleGrid.fillUnusable(relative, usable);
        OrderField field =
                OrderField.besideEngine(
                        AngleGrid.binOrders(series.length),
                        AngleGrid.power(relative, usable),
                        engine.cycleOrder(),
                        blindOrders,
                        engine.firingOrders());
        return new BandMeasurement(loHz, hiHz, cycle.level(), field, cycle);
    }

    /** Bends single huge knocks down, so that one of them cannot paint the whole spectrum. */
    private static double compress(double ratio) {
        return ratio <= COMPRESS_FROM
                ? ratio
                : COMPRESS_FROM * (1 + Math.log(ratio / COMPRESS_FROM));
    }

    private static final double COMPRESS_FROM = 8;

    private static OrderField motion(Samples onAngle, Engine engine, double blindOrders) {
        int binsPerCycle = (int) Math.rint(AngleGrid.STEPS_PER_TURN / engine.cycleOrder());
        boolean[] usable = onAngle.usable();
        double[] power = new double[0];
        for (double[] channel : onAngle.channels()) {
            double[] x = channel.clone();
            if (x.length >= binsPerCycle) {
                double[] mean = CycleProfile.meanCycle(x, binsPerCycle, usable);
                Arrays.setAll(x, i -> x[i] - mean[i % binsPerCycle]);
            }
            AngleGrid.fillUnusable(x, usable);
            double[] p = AngleGrid.power(x, usable);
            if (power.length == 0) {
                power = p;
            } else {
                for (int i = 0; i < p.length; i++) {
                    power[i] += p[i];
                }
            }
        }
        return new OrderField(
                AngleGrid.binOrders(usable.length), power, engine.cycleOrder(), blindOrders);
    }

    private static CaptureSummary summarise(CaptureInput input, SignalQuality quality) {
        ShaftAngle angle = input.angle();
        double durationS = input.durationS();
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
        return new CaptureSummary(
                input.label(),
                input.speedSource(),
                durationS,
                mean,
                Math.max(0, lowest),
                highest,
                Samples.rmsMps2(input, quality));
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

    RhythmScan motionScan() {
        return motionScan;
    }

    /** What the bands say of lines of bearings. */
    RhythmScan lineScan() {
        return lineScan;
    }

    /** What the bands say of trains of knocks. */
    RhythmScan trainScan() {
        return trainScan;
    }
}
