package tickover.order;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Close and crossing lines, ends, stretches left out, and requests that cannot be met. */
class VoldKalmanTest {
    private static final double RATE_HZ = 6400;

    /** What the splines' sums leave of a constant amplitude. */
    private static final double EXACT = 1e-6;

    private static final double WANTED = 0.005;

    /** Orders 0.05 apart at 3000 rpm stand 2.5 Hz apart: half the bandwidth. */
    @Test
    void closeOrdersArePartedTogetherAndNotAlone() {
        SweptRecord record =
                new SweptRecord(RATE_HZ, 2400, 3000, 20).add(2, 0, 0, 1).add(2.05, 0, 1, 0.3);
        TrackedLine near = TrackedLine.orderWithinHz(2, 5);
        TrackedLine beside = TrackedLine.orderWithinHz(2.05, 5);
        List<LineTrack> together = record.track(2, near, beside).tracks();
        assertEquals(0, SweptRecord.worstError(together.get(0), 1), EXACT);
        assertEquals(0, SweptRecord.worstError(together.get(1), 0.3), EXACT);
        double alone = SweptRecord.worstError(record.track(2, near).tracks().get(0), 1);
        assertTrue(alone > 0.2, "alone it is off by " + alone);
    }

    /** Order 2 runs from 40 Hz to 100 Hz through a fixed tone of 60 Hz. */
    @ParameterizedTest
    @ValueSource(ints = {1, 2})
    void crossingLinesGoThroughEachOtherTogetherAndNotAlone(int differences) {
        SweptRecord record =
                new SweptRecord(RATE_HZ, 1200, 3000, 20).add(2, 0, 0.2, 1).add(0, 60, 1, 0.8);
        TrackedLine order = TrackedLine.orderWithinHz(2, 4);
        TrackedLine tone = TrackedLine.toneWithinHz(60, 4);
        List<LineTrack> together = record.track(differences, order, tone).tracks();
        assertEquals(0, SweptRecord.worstError(together.get(0), 1), EXACT);
        assertEquals(0, SweptRecord.worstError(together.get(1), 0.8), EXACT);
        double alone = SweptRecord.worstError(record.track(differences, order).tracks().get(0), 1);
        assertTrue(alone > 0.2, "alone it is off by " + alone);
    }

    /** Amplitudes that change as they cross are shared out by what each may change. */
    @Test
    void crossingLinesKeepTheirChangingAmplitudes() {
        SweptRecord record =
                new SweptRecord(RATE_HZ, 1200, 3000, 20)
                        .add(2, 0, 0.2, t -> 1 + 0.3 * Math.sin(2 * Math.PI * 0.1 * t))
                        .add(0, 60, 1, t -> 0.8 - 0.02 * t);
        LineTrack track =
                record.track(2, TrackedLine.orderWithinHz(2, 4), TrackedLine.toneWithinHz(60, 4))
                        .tracks()
                        .get(0);
        for (int i = 0; i < track.rms().length; i++) {
            double t = track.timesS()[i];
            double truth = (1 + 0.3 * Math.sin(2 * Math.PI * 0.1 * t)) / Math.sqrt(2);
            assertEquals(truth, track.rms()[i], WANTED, "at " + t + " s");
        }
    }

    /** With the second difference a straight change costs nothing, so the ends do not droop. */
    @Test
    void endsOfTheRecordAreAsGoodAsItsMiddle() {
        SweptRecord record = new SweptRecord(RATE_HZ, 900, 1500, 10).add(3, 0, 1, t -> 1 + t / 2);
        LineTracks tracks = record.track(2, TrackedLine.orderWithinHz(3, 2));
        LineTrack track = tracks.tracks().get(0);
        for (int i = 0; i < track.rms().length; i++) {
            double truth = (1 + track.timesS()[i] / 2) / Math.sqrt(2);
            assertEquals(truth, track.rms()[i], EXACT * truth, "at " + track.timesS()[i] + " s");
        }
        for (double value : tracks.residual()) {
            assertEquals(0, value, 10 * EXACT);
        }
    }

    /** What stands in stretches left out does not matter, not even if it is not a number. */
    @Test
    void stretchesLeftOutDoNotMatter() {
        SweptRecord record = new SweptRecord(RATE_HZ, 900, 1500, 20).add(3, 0, 1, 1);
        Arrays.fill(record.x, (int) (5 * RATE_HZ), (int) (6 * RATE_HZ), 40);
        Arrays.fill(record.x, (int) (12 * RATE_HZ), (int) (12.01 * RATE_HZ), Double.NaN);
        List<TimeRange> leftOut = List.of(new TimeRange(12, 12.01), new TimeRange(5, 6));
        LineTrack track =
                VoldKalman.track(
                                record.x,
                                RATE_HZ,
                                record.angle,
                                VoldKalman.Spec.of(TrackedLine.orderWithinHz(3, 4)),
                                leftOut)
                        .tracks()
                        .get(0);
        assertEquals(0, SweptRecord.worstError(track, 1), EXACT);
        for (int i = 0; i < track.rms().length; i++) {
            double t = track.timesS()[i];
            boolean inside = leftOut.stream().anyMatch(r -> t >= r.fromS() && t <= r.toS());
            assertEquals(inside, track.bridged()[i], "at " + t + " s");
        }
        double used =
                SweptRecord.worstError(
                        VoldKalman.track(
                                        record.x,
                                        RATE_HZ,
                                        record.angle,
                                        VoldKalman.Spec.of(TrackedLine.orderWithinHz(3, 4)),
                                        leftOut.subList(0, 1))
                                .tracks()
                                .get(0),
                        1);
        assertTrue(used > 0.2, "with the bad second in use it is off by " + used);
        assertThrows(
                IllegalArgumentException.class,
                () -> record.track(2, TrackedLine.orderWithinHz(3, 4)),
                "values that are not finite");
    }

    /** Gravity stands 13 Hz beside order 1 at idle and is thousands of times as strong. */
    @Test
    void gravityDoesNotLeakIntoTheFirstOrder() {
        SweptRecord record = new SweptRecord(RATE_HZ, 800, 900, 10).add(1, 0, 0, 0.01);
        record.addConstant(9.81);
        LineTracks tracks = record.track(1, TrackedLine.orderWithinHz(1, 8));
        assertEquals(0, SweptRecord.worstError(tracks.tracks().get(0), 0.01), WANTED);
        assertEquals(9.81, Arrays.stream(tracks.residual()).average().orElseThrow(), 1e-4);
    }

    /** The half order at 600 rpm is 5 Hz, and its mirror image 10 Hz away lies in the skirt. */
    @Test
    void mirrorImageIsPartOfTheFit() {
        SweptRecord record = new SweptRecord(RATE_HZ, 600, 700, 20).add(0.5, 0, 0.7, 1);
        LineTrack track = record.track(1, TrackedLine.orderWithinHz(0.5, 8)).tracks().get(0);
        assertEquals(0, SweptRecord.worstError(track, 1), EXACT);
    }

    /** A line at the edge of a bandwidth given in orders is 3 dB down at every speed. */
    @Test
    void bandwidthInOrdersFollowsTheSpeed() {
        SweptRecord record = new SweptRecord(RATE_HZ, 900, 3000, 60).add(4.1, 0, 0, 1);
        LineTrack track = record.track(2, TrackedLine.orderWithinOrders(4, 0.2)).tracks().get(0);
        // The speed changes by some percent within the filter's memory.
        double slowly = 0.03;
        int n = track.rms().length;
        for (int i = n / 20; i < n - n / 20; i++) {
            assertEquals(0.5, track.rms()[i], slowly * 0.5, "at " + track.timesS()[i] + " s");
        }
    }

    /** A band of 1/50 of another's that comes close is the narrowest taken, and still sound. */
    @Test
    void narrowLineBesideAWideOneIsSound() {
        SweptRecord record =
                new SweptRecord(RATE_HZ, 900, 1500, 30).add(2, 0, 0, 1).add(0, 40, 1, 0.5);
        List<LineTrack> tracks =
                record.track(2, TrackedLine.orderWithinHz(2, 0.1), TrackedLine.toneWithinHz(40, 5))
                        .tracks();
        assertEquals(0, SweptRecord.worstError(tracks.get(0), 1), WANTED);
        assertEquals(0, SweptRecord.worstError(tracks.get(1), 0.5), WANTED);
    }

    /**
     * Lines that never come close are solved apart, on knots of their own; at the ends and beside a
     * gap the strong one would show in the weak one's amplitude, and is taken off first.
     */
    @Test
    void strongLineFarAwayDoesNotShowInAWeakOne() {
        SweptRecord record =
                new SweptRecord(RATE_HZ, 1500, 2400, 10).add(1, 0, 0, 1).add(40, 0, 1, 0.01);
        List<LineTrack> both =
                VoldKalman.track(
                                record.x,
                                RATE_HZ,
                                record.angle,
                                VoldKalman.Spec.of(
                                        TrackedLine.orderWithinHz(1, 1.2),
                                        TrackedLine.orderWithinHz(40, 5)),
                                List.of(new TimeRange(4, 4.3)))
                        .tracks();
        // Knots are whole samples apart.
        double rounded = 0.01;
        assertEquals(1, both.get(0).rms().length / (12 * 1.2 * 10), rounded, "knots of its own");
        assertEquals(1, both.get(1).rms().length / (12 * 5 * 10.0), rounded, "knots of its own");
        assertEquals(0, SweptRecord.worstError(both.get(0), 1), WANTED);
        assertEquals(0, SweptRecord.worstError(both.get(1), 0.01), WANTED);
    }

    /** Only samples under the angle's curve are used; beyond it there is no signal. */
    @Test
    void whatTheAngleDoesNotCoverIsLeftAlone() {
        SweptRecord record = new SweptRecord(RATE_HZ, 1200, 1200, 10).add(2, 0, 0, 1);
        LineTracks tracks =
                VoldKalman.track(
                        record.x,
                        RATE_HZ,
                        ShaftAngle.steady(20, 8),
                        VoldKalman.Spec.of(TrackedLine.orderWithinHz(2, 4)));
        double[] signal = tracks.signal(0);
        assertEquals(record.x.length, signal.length);
        int covered = (int) (8 * RATE_HZ) + 1;
        assertEquals(0, SweptRecord.rms(Arrays.copyOfRange(signal, covered, signal.length)), 0);
        double[] left = Arrays.copyOf(tracks.residual(), covered);
        assertEquals(0, SweptRecord.rms(left), EXACT);
        double[] times = tracks.tracks().get(0).timesS();
        assertTrue(times[times.length - 1] <= 8);
    }

    @Test
    void refusesWhatItCannotDo() {
        SweptRecord record = new SweptRecord(RATE_HZ, 900, 3000, 2).add(2, 0, 0, 1);
        refuses("half of the sample rate", record, TrackedLine.orderWithinHz(65, 1));
        refuses("to 200.0 Hz", record, TrackedLine.orderWithinHz(2, 201));
        refuses("need 0.005", record, TrackedLine.orderWithinHz(2, 0.004));
        refuses(
                "1/50",
                record,
                TrackedLine.orderWithinHz(2, 5),
                TrackedLine.orderWithinHz(3, 0.05));
        refuses(
                "need lines that differ",
                record,
                TrackedLine.orderWithinHz(2, 5),
                TrackedLine.orderWithinHz(2, 4));
        refuses(
                "cannot be told apart",
                record,
                TrackedLine.orderWithinHz(2, 1),
                TrackedLine.orderWithinHz(2 + 1e-9, 1));
        IllegalArgumentException none =
                assertThrows(
                        IllegalArgumentException.class,
                        () ->
                                VoldKalman.track(
                                        record.x,
                                        RATE_HZ,
                                        record.angle,
                                        VoldKalman.Spec.of(TrackedLine.orderWithinHz(2, 5)),
                                        List.of(new TimeRange(0, 3))));
        assertTrue(none.getMessage().contains("no sample"), none.getMessage());
    }

    private static void refuses(String saying, SweptRecord record, TrackedLine... lines) {
        IllegalArgumentException refusal =
                assertThrows(IllegalArgumentException.class, () -> record.track(2, lines));
        assertTrue(refusal.getMessage().contains(saying), refusal.getMessage());
    }
}
