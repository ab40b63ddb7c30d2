package tickover.session;

import java.util.List;
import java.util.Objects;
import tickover.align.CaptureSignal;
import tickover.diagnose.CaptureInput;
import tickover.diagnose.QualityNote;
import tickover.diagnose.SignalQuality;
import tickover.drive.DriveModel;
import tickover.drive.Vehicle;
import tickover.dsp.BandEnvelope;
import tickover.dsp.Statistics;
import tickover.dsp.Window;
import tickover.order.AngleFinder;
import tickover.order.AngleFinding;
import tickover.order.AngleNote;
import tickover.order.AngularRecord;
import tickover.order.AngularResampler;
import tickover.order.OrderLine;
import tickover.order.OrderLines;
import tickover.order.OrderSpectrum;
import tickover.order.Ripple;
import tickover.order.ShaftAngle;
import tickover.order.Waterfall;
import tickover.store.VisitCapture;

/**
 * One capture with its crank angle, ready to be asked about orders. Holds the samples of all
 * channels. One thread.
 */
public final class TrackedCapture {
    /** Orders are accurate up to this part of what the samples per turn can show. */
    private static final double USABLE_RATIO = 0.8;

    private static final int FEWEST_SAMPLES_PER_TURN = 64;
    private static final int FEWEST_TURNS = 4;

    /** The upper band's edges as shares of the sample rate. */
    private static final double ENVELOPE_FROM_RATIO = 0.08;

    private static final double ENVELOPE_TO_RATIO = 0.42;

    /** Knots of the speed curve that are looked at for its highest value. */
    private static final int SPEED_STEPS = 400;

    /** A frame is at most this part of the capture, so that a waterfall has something to show. */
    private static final int FEWEST_FRAMES = 8;

    private final String id;
    private final CaptureSignal signal;
    private final ShaftAngle angle;
    private final List<AngleNote> notes;
    private final CaptureInput input;

    private TrackedCapture(
            String id,
            CaptureSignal signal,
            ShaftAngle angle,
            List<AngleNote> notes,
            CaptureInput input) {
        this.input = input;
        this.id = id;
        this.signal = signal;
        this.angle = angle;
        this.notes = List.copyOf(notes);
    }

    /**
     * Loads a capture and finds its crank angle.
     *
     * @param vehicle the visit's vehicle
     * @param capture one of its captures
     * @return the capture over angle
     * @throws NoAngleException if the angle cannot be found or is too short
     */
    public static TrackedCapture of(Vehicle vehicle, VisitCapture capture) {
        return of(vehicle, capture, Ripple.AS_SEEN);
    }

    /**
     * Loads a capture and finds its crank angle with torsional ripple left in or taken out.
     *
     * @param vehicle the visit's vehicle
     * @param capture one of its captures
     * @param ripple what to do with ripple; one of the {@link #notes} says what came of it
     * @return the capture over angle
     * @throws NoAngleException if the angle cannot be found or is too short
     */
    public static TrackedCapture of(Vehicle vehicle, VisitCapture capture, Ripple ripple) {
        Objects.requireNonNull(vehicle, "vehicle");
        String id = capture.label().id();
        CaptureSignal signal = capture.load();
        AngleFinding found =
                AngleFinder.find(
                        signal, VisitAnalysis.prior(DriveModel.of(vehicle), capture), ripple);
        if (found.angle().isEmpty()) {
            throw new NoAngleException(
                    id, found.problem().orElse("engine speed could not be found"));
        }
        ShaftAngle angle = found.angle().get();
        if (!(angle.endTurns() - angle.startTurns() > FEWEST_TURNS)) {
            throw new NoAngleException(
                    id,
                    "fewer than "
                            + FEWEST_TURNS
                            + " crank turns with a known angle; record for longer");
        }
        return new TrackedCapture(
                id, signal, angle, found.notes(), VisitAnalysis.input(capture, signal, found));
    }

    CaptureSignal signal() {
        return signal;
    }

    ShaftAngle angle() {
        return angle;
    }

    /**
     * Returns the number of channels.
     *
     * @return 1, or 3 for x, y, z
     */
    public int channels() {
        return signal.channels();
    }

    /**
     * Returns whether phases count from a mark on the crank.
     *
     * @return false if they count from wherever the crank stood at the start
     */
    public boolean phaseKnown() {
        return angle.phaseKnown();
    }

    /**
     * Returns what is worth knowing of how the angle was found.
     *
     * @return notes, perhaps none
     */
    public List<AngleNote> notes() {
        return notes;
    }

    /**
     * Finds the stretches that findings leave out: clipped, knocked, lost and the like. What is
     * asked of this capture holds them all the same.
     *
     * @return the notes that have such stretches, perhaps none
     */
    public List<QualityNote> badStretches() {
        return SignalQuality.of(input).notes().stream()
                .filter(n -> n.problem().rulesOut() && !n.ranges().isEmpty())
                .toList();
    }

    /**
     * Returns the highest order that the sample rate can show at every speed of the capture.
     *
     * @return per crank turn
     */
    public double highestOrders() {
        double highestHz = 0;
        for (int i = 0; i <= SPEED_STEPS; i++) {
            double timeS = angle.startS() + (angle.endS() - angle.startS()) * i / SPEED_STEPS;
            highestHz = Math.max(highestHz, angle.speedHzAt(Math.min(timeS, angle.endS())));
        }
        return USABLE_RATIO * signal.sampleRateHz() / 2 / highestHz;
    }

    /**
     * Measures orders over the whole capture.
     *
     * @param channel 0-based
     * @param orders per crank turn, fractions allowed, above 0 and at most {@link #highestOrders}
     * @return one line per order, in their order
     * @throws IllegalArgumentException if an order is out of range
     */
    public List<OrderLine> lines(int channel, List<Double> orders) {
        double highest = 0;
        for (double order : orders) {
            if (!(order > 0 && order <= highestOrders())) {
                throw new IllegalArgumentException(
                        "order="
                                + order
                                + ", need above 0 and at most "
                                + Math.floor(10 * highestOrders()) / 10
                                + " at this sample rate and speed");
            }
            highest = Math.max(highest, order);
        }
        return OrderLines.of(
                record(channel, highest), orders.stream().mapToDouble(o -> o).toArray());
    }

    /**
     * Lays out a waterfall of Hann frames.
     *
     * @param channel 0-based
     * @param highestOrders highest order wanted, per crank turn, &gt; 0
     * @param turnsPerFrame length of a frame, crank turns; shortened so that the capture holds some
     * @param axis what the rows are laid along
     * @return the waterfall, whose rows go beyond the highest order wanted
     */
    public Waterfall waterfall(
            int channel, double highestOrders, int turnsPerFrame, Waterfall.Axis axis) {
        AngularRecord record = record(channel, highestOrders);
        int turns = frameTurns(record, turnsPerFrame);
        double lengthS = angle.endS() - angle.startS();
        double meanHz = (angle.endTurns() - angle.startTurns()) / lengthS;
        double step =
                switch (axis) {
                    case TURNS -> turns / 2.0;
                    case TIME -> turns / 2.0 / meanHz;
                    case SPEED -> 20;
                };
        return Waterfall.of(record, angle, new Waterfall.Spec(turns, axis, step, Window.HANN));
    }

    /**
     * Averages order spectra of Hann frames over the capture.
     *
     * @param channel 0-based
     * @param highestOrders highest order wanted, per crank turn, &gt; 0
     * @param turnsPerFrame length of a frame, crank turns; shortened so that the capture holds some
     * @return the spectrum
     */
    public OrderSpectrum spectrum(int channel, double highestOrders, int turnsPerFrame) {
        AngularRecord record = record(channel, highestOrders);
        return OrderSpectrum.of(record, OrderSpectrum.Spec.hann(frameTurns(record, turnsPerFrame)));
    }

    /** The spectrum of a band's squared envelope, and what it is held against. */
    public static final class EnvelopeSpectrum {
        private final double loHz;
        private final double hiHz;
        private final double mean;
        private final OrderSpectrum spectrum;

        private EnvelopeSpectrum(double loHz, double hiHz, double mean, OrderSpectrum spectrum) {
            this.loHz = loHz;
            this.hiHz = hiHz;
            this.mean = mean;
            this.spectrum = spectrum;
        }

        /**
         * Returns the lower edge of the band.
         *
         * @return Hz
         */
        public double loHz() {
            return loHz;
        }

        /**
         * Returns the upper edge of the band.
         *
         * @return Hz
         */
        public double hiHz() {
            return hiHz;
        }

        /**
         * Returns the mean of the squared envelope.
         *
         * @return (m/s²)²
         */
        public double mean() {
            return mean;
        }

        /**
         * Returns the spectrum.
         *
         * @return (m/s²)² where an acceleration's has m/s²
         */
        public OrderSpectrum spectrum() {
            return spectrum;
        }
    }

    /**
     * Averages order spectra of the squared envelope of the upper band, in which housings ring.
     *
     * @param channel 0-based
     * @param highestOrders highest order wanted, per crank turn, &gt; 0
     * @param turnsPerFrame length of a frame, crank turns; shortened so that the capture holds some
     * @return the spectrum
     */
    public EnvelopeSpectrum envelopeSpectrum(int channel, double highestOrders, int turnsPerFrame) {
        double loHz = ENVELOPE_FROM_RATIO * signal.sampleRateHz();
        double hiHz = ENVELOPE_TO_RATIO * signal.sampleRateHz();
        BandEnvelope envelope =
                BandEnvelope.squared(signal.accelMps2(channel), signal.sampleRateHz(), loHz, hiHz);
        AngularRecord record =
                AngularResampler.resample(
                        envelope.valuesSquared(),
                        envelope.rateHz(),
                        angle,
                        samplesPerTurn(highestOrders));
        OrderSpectrum spectrum =
                OrderSpectrum.of(
                        record, OrderSpectrum.Spec.hann(frameTurns(record, turnsPerFrame)));
        return new EnvelopeSpectrum(
                loHz, hiHz, Statistics.mean(envelope.valuesSquared()), spectrum);
    }

    private static int samplesPerTurn(double highestOrders) {
        int needed = (int) Math.ceil(2 * highestOrders / USABLE_RATIO) + 2;
        int samplesPerTurn = FEWEST_SAMPLES_PER_TURN;
        while (samplesPerTurn < needed) {
            samplesPerTurn *= 2;
        }
        return samplesPerTurn;
    }

    private static int frameTurns(AngularRecord record, int wanted) {
        int longest = (int) Math.floor(record.lengthTurns() / FEWEST_FRAMES);
        return Math.max(1, Math.min(wanted, longest));
    }

    private AngularRecord record(int channel, double highestOrders) {
        if (!(channel >= 0 && channel < channels())) {
            throw new IllegalArgumentException(
                    "channel=" + channel + ", need 0 to below " + channels());
        }
        AngularRecord record =
                AngularResampler.resample(
                        signal.accelMps2(channel),
                        signal.sampleRateHz(),
                        angle,
                        samplesPerTurn(highestOrders));
        if (!(record.lengthTurns() >= FEWEST_TURNS)) {
            throw new NoAngleException(
                    id, "too short to be resampled over angle; record for longer");
        }
        return record;
    }
}
