package tickover.session;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import tickover.diagnose.CombFinding;
import tickover.diagnose.CombPattern;
import tickover.diagnose.CombSearch;
import tickover.diagnose.CombTolerance;
import tickover.diagnose.EnvelopeOrders;
import tickover.drive.DrivePart;
import tickover.drive.PartLine;
import tickover.drive.PartWords;
import tickover.drive.Vehicle;
import tickover.dsp.ComplexFft;
import tickover.dsp.RealFft;
import tickover.order.ShaftAngle;
import tickover.order.TrackedLine;
import tickover.order.VoldKalman;

/** Takes out of a capture what rings in the rhythm of one part, as {@link PartListening} says. */
final class PartRinging {
    private static final int RHYTHM_HARMONICS = 4;
    private static final int RINGING_HARMONICS = 10;
    private static final double RINGING_WIDTH_RATIO = 0.04;
    private static final double ENVELOPE_ORDERS = 40;

    /** The crank's angle is known to about this share where envelopes are asked about. */
    private static final double ANGLE_ERROR_RATIO = 0.0005;

    /** So many times the rhythm must fit into a band. */
    private static final double BAND_PER_RATE = 4;

    /** Chance shows as much more often than this: then that is said. */
    private static final double BY_CHANCE = 0.05;

    private final Vehicle vehicle;
    private final TrackedCapture tracked;
    private final int channel;
    private final DrivePart pulley;
    private final List<String> notes = new ArrayList<>();
    private String kind = "";

    PartRinging(Vehicle vehicle, TrackedCapture tracked, int channel, DrivePart pulley) {
        this.vehicle = vehicle;
        this.tracked = tracked;
        this.channel = channel;
        this.pulley = pulley;
    }

    /** Kind of line in whose rhythm it rings; empty before it was found. */
    String kind() {
        return kind;
    }

    /** What was found, one sentence each. */
    List<String> notes() {
        return notes;
    }

    static double meanHz(ShaftAngle angle) {
        return (angle.endTurns() - angle.startTurns()) / (angle.endS() - angle.startS());
    }

    /** A rhythm that the part can make, and how it was found. */
    private record Rhythm(PartLine line, CombFinding found) {}

    /**
     * Takes it out of the capture.
     *
     * @param wantedKind kind of line; empty for the one that stands out most
     * @return m/s², one value per sample; empty if the capture is too slow or too short
     * @throws IllegalArgumentException if the part has no such line
     */
    Optional<double[]> in(String wantedKind) {
        requireKind(wantedKind);
        double[] x = tracked.signal().accelMps2(channel);
        Optional<Rhythm> best = rhythm(x, wantedKind);
        if (best.isEmpty()) {
            notes.add(
                    "The capture is sampled too slowly for the ringing of "
                            + PartWords.the(pulley.name())
                            + " to be heard.");
            return Optional.empty();
        }
        CombFinding found = best.get().found();
        kind = best.get().line().kind();
        notes.add(
                String.format(
                        Locale.ROOT,
                        "Ringing: %.1f to %.1f kHz in the rhythm of its %s, %.3f per crank turn"
                                + " (%.1f Hz).",
                        found.band().loHz() / 1000,
                        found.band().hiHz() / 1000,
                        best.get().line().kind(),
                        found.order(),
                        found.order() * meanHz(tracked.angle())));
        if (!(found.falseAlarmProbability() < BY_CHANCE)) {
            notes.add("That rhythm does not stand out here: what you hear of it may be chance.");
        }
        return Optional.of(inRhythm(x, found));
    }

    /** Rhythms to which a part can ring: its turn's and its bearings'. */
    private static boolean isRhythm(PartLine line) {
        return line.kind().equals("turn") || !line.source().equals("pulley");
    }

    private void requireKind(String wantedKind) {
        List<String> kinds =
                pulley.lines().stream()
                        .filter(PartRinging::isRhythm)
                        .map(PartLine::kind)
                        .distinct()
                        .toList();
        if (!wantedKind.isEmpty() && !kinds.contains(wantedKind)) {
            throw new IllegalArgumentException(
                    pulley.name()
                            + " has no line '"
                            + wantedKind
                            + "'; it has "
                            + String.join(", ", kinds));
        }
    }

    private Optional<Rhythm> rhythm(double[] x, String wantedKind) {
        Rhythm best = null;
        for (PartLine line : pulley.lines()) {
            boolean wanted = wantedKind.isEmpty() || line.kind().equals(wantedKind);
            if (!(wanted && isRhythm(line)) || RHYTHM_HARMONICS * line.order() > ENVELOPE_ORDERS) {
                continue;
            }
            Optional<EnvelopeOrders> spectra = spectra(x, line.order());
            if (spectra.isEmpty()) {
                continue;
            }
            double limit = Math.max(0.005, Math.min(0.15, line.uncertaintyRatio()));
            CombFinding found =
                    CombSearch.search(
                            spectra.get(),
                            new CombPattern(
                                    line.order(),
                                    RHYTHM_HARMONICS,
                                    List.of(),
                                    new CombTolerance(limit, limit / 2),
                                    pulley.turnsPerCrankTurn(),
                                    false));
            if (best == null || found.evidenceNats() > best.found().evidenceNats()) {
                best = new Rhythm(line, found);
            }
        }
        return Optional.ofNullable(best);
    }

    private Optional<EnvelopeOrders> spectra(double[] x, double order) {
        try {
            return Optional.of(
                    EnvelopeOrders.of(
                            x,
                            tracked.signal().sampleRateHz(),
                            tracked.angle(),
                            new EnvelopeOrders.Spec(
                                    ENVELOPE_ORDERS,
                                    vehicle.engine().cycleOrder(),
                                    ANGLE_ERROR_RATIO,
                                    1,
                                    BAND_PER_RATE * order * meanHz(tracked.angle()))));
        } catch (IllegalArgumentException e) {
            // Too slow a rate, or too few turns: there is nothing to look at.
            return Optional.empty();
        }
    }

    private double[] inRhythm(double[] x, CombFinding found) {
        double rateHz = tracked.signal().sampleRateHz();
        double[] band = analytic(x, rateHz, found.band().loHz(), found.band().hiHz());
        double[] square = new double[x.length];
        for (int i = 0; i < square.length; i++) {
            square[i] = band[2 * i] * band[2 * i] + band[2 * i + 1] * band[2 * i + 1];
        }
        List<TrackedLine> lines = new ArrayList<>();
        double fastest = highestHz();
        for (int h = 1; h <= RINGING_HARMONICS; h++) {
            if (h * found.order() * fastest < found.band().hiHz() - found.band().loHz()) {
                lines.add(
                        TrackedLine.orderWithinOrders(
                                h * found.order(), RINGING_WIDTH_RATIO * found.order()));
            }
        }
        double[] rest =
                VoldKalman.track(square, rateHz, tracked.angle(), new VoldKalman.Spec(2, lines))
                        .residual();
        double[] sound = new double[x.length];
        for (int i = 0; i < sound.length; i++) {
            double own = Math.max(0, square[i] - rest[i]);
            double size = Math.sqrt(Math.max(square[i], Double.MIN_NORMAL));
            sound[i] = band[2 * i] / size * Math.sqrt(own);
        }
        return sound;
    }

    private double highestHz() {
        ShaftAngle angle = tracked.angle();
        int steps = 200;
        double highest = 0;
        for (int i = 0; i <= steps; i++) {
            double at = angle.startS() + (angle.endS() - angle.startS()) * i / steps;
            highest = Math.max(highest, angle.speedHzAt(Math.min(at, angle.endS())));
        }
        return highest;
    }

    /** The band as a complex signal at the record's own rate, real and imaginary in turn. */
    private static double[] analytic(double[] x, double rateHz, double loHz, double hiHz) {
        int n = RealFft.goodSize(x.length);
        RealFft fft = new RealFft(n);
        double[] re = new double[fft.bins()];
        double[] im = new double[fft.bins()];
        fft.forward(Arrays.copyOf(x, n), re, im);
        double[] values = new double[2 * n];
        int from = Math.max(1, (int) Math.ceil(loHz * n / rateHz));
        int to = Math.min(fft.bins() - 2, (int) Math.floor(hiHz * n / rateHz));
        for (int k = from; k <= to; k++) {
            values[2 * k] = 2 * re[k];
            values[2 * k + 1] = 2 * im[k];
        }
        new ComplexFft(n).inverse(values);
        return values;
    }
}
