package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.order.ShaftAngle;
import tickover.order.TimeRange;

class SignalQualityTest {
    private static final double RATE_HZ = 6400;
    private static final double LENGTH_S = 10;
    private static final double CRANK_HZ = 14;

    /** Ranges are found to the block of 50 ms at either end. */
    private static final double BLOCK_S = 0.05;

    /** Firing lines and noise of an idling engine, with gravity's share of a probe that has one. */
    private static double[] engine(double gravityMps2) {
        Random random = new Random(3);
        double[] x = new double[(int) (LENGTH_S * RATE_HZ)];
        double smooth = 0;
        for (int i = 0; i < x.length; i++) {
            double turn = 2 * Math.PI * CRANK_HZ * i / RATE_HZ;
            smooth = 0.5 * smooth + random.nextGaussian();
            x[i] = gravityMps2 + 1.5 * Math.sin(2 * turn) + 0.7 * Math.sin(4 * turn + 1) + smooth;
        }
        return x;
    }

    private static CaptureInput input(Regime regime, double[]... channels) {
        return new CaptureInput(
                new CaptureLabel("c01", "idler", "", Mount.HAND, regime, Condition.UNLOADED),
                RATE_HZ,
                channels,
                ShaftAngle.steady(CRANK_HZ, channels[0].length / RATE_HZ),
                "known");
    }

    private static List<QualityNote> notes(double[]... channels) {
        return SignalQuality.of(input(Regime.IDLE, channels)).notes();
    }

    private static List<TimeRange> ranges(List<QualityNote> notes, QualityProblem problem) {
        Optional<QualityNote> note = notes.stream().filter(n -> n.problem() == problem).findFirst();
        assertTrue(note.isPresent(), () -> "no " + problem + " in " + notes);
        return note.get().ranges();
    }

    private static void assertRange(double fromS, double toS, TimeRange found, double toleranceS) {
        assertEquals(fromS, found.fromS(), toleranceS);
        assertEquals(toS, found.toS(), toleranceS);
    }

    private static void over(double fromS, double toS, Filler filler, double[] x) {
        for (int i = (int) (fromS * RATE_HZ); i < (int) (toS * RATE_HZ); i++) {
            x[i] = filler.at(x[i], i / RATE_HZ - fromS);
        }
    }

    /** What becomes of a sample, so long after the beginning. */
    private interface Filler {
        double at(double value, double sinceS);
    }

    @Test
    void findsNothingWrongWithAGoodCapture() {
        assertEquals(List.of(), notes(engine(0)));
        assertEquals(List.of(), notes(engine(9.8), engine(0), engine(-3)));
    }

    @Test
    void saysWhenASensorWasClipped() {
        double[] x = engine(0);
        over(4, 5, (v, t) -> Math.max(-20, Math.min(20, 15 * v)), x);
        List<TimeRange> found = ranges(notes(x), QualityProblem.CLIPPED);
        assertEquals(1, found.size());
        assertRange(4, 5, found.get(0), 2 * BLOCK_S);
    }

    @Test
    void aFaintSignalOfFewConverterStepsIsNotClipped() {
        double[] x = engine(0);
        Arrays.setAll(x, i -> Math.rint(x[i]));
        assertEquals(List.of(), notes(x));
    }

    @Test
    void clippingAllAlongIsReportedAndLeavesNothingOut() {
        double[] x = engine(0);
        Arrays.setAll(x, i -> Math.max(-1.5, Math.min(1.5, x[i])));
        SignalQuality quality = SignalQuality.of(input(Regime.IDLE, x));
        assertEquals(List.of(), ranges(quality.notes(), QualityProblem.CLIPPED));
        assertEquals(LENGTH_S, quality.usableS());
    }

    @Test
    void saysWhenContactWasLost() {
        double[] x = engine(9.8);
        over(2.5, 3.1, (v, t) -> 9.8 + 0.03 * (v - 9.8), x);
        over(7, 8, (v, t) -> 9.8, x);
        List<TimeRange> found = ranges(notes(x), QualityProblem.LOST_CONTACT);
        assertEquals(2, found.size());
        assertRange(2.5, 3.1, found.get(0), BLOCK_S);
        assertRange(7, 8, found.get(1), BLOCK_S);
    }

    @Test
    void findsALostContactUnderANoisySensorByItsBass() {
        double[] x = engine(0);
        Random noise = new Random(4);
        // Noise of a fifth of the signal's treble, which a check of treble alone lets pass.
        over(2.5, 3.1, (v, t) -> 0.03 * v + 0.3 * noise.nextGaussian(), x);
        assertRange(2.5, 3.1, ranges(notes(x), QualityProblem.LOST_CONTACT).get(0), 2 * BLOCK_S);
    }

    @Test
    void aProbeOffForMostOfTheTimeIsSeenAsOff() {
        double[] x = engine(0);
        over(0, 6, (v, t) -> 0.02 * v, x);
        assertRange(0, 6, ranges(notes(x), QualityProblem.LOST_CONTACT).get(0), BLOCK_S);
    }

    @Test
    void silenceBetweenTheTicksOfAnEngineIsNoLostContact() {
        double[] x = new double[(int) (LENGTH_S * RATE_HZ)];
        Random random = new Random(6);
        for (int i = 0; i < x.length; i++) {
            double cycle = (i / RATE_HZ * CRANK_HZ / 2) % 1;
            x[i] = (0.01 + 3 * Math.exp(-cycle * 60)) * random.nextGaussian();
        }
        assertEquals(List.of(), notes(x));
    }

    @Test
    void aSweepThatGetsTwentyTimesLouderIsNoTrouble() {
        double[] x = engine(0);
        Arrays.setAll(x, i -> x[i] * Math.pow(20, i / (double) x.length));
        assertEquals(List.of(), SignalQuality.of(input(Regime.SWEEP, x)).notes());
    }

    @Test
    void saysWhenSomethingKnocked() {
        double[] x = engine(0);
        over(6, 6.5, (v, t) -> v + 60 * Math.exp(-25 * t) * Math.sin(2 * Math.PI * 180 * t), x);
        // A bump of the hand hardly shows in the treble.
        over(8, 8.5, (v, t) -> v + 30 * Math.exp(-12 * t) * Math.sin(2 * Math.PI * 30 * t), x);
        List<TimeRange> found = ranges(notes(x), QualityProblem.KNOCK);
        assertEquals(2, found.size(), found.toString());
        assertEquals(6, found.get(0).fromS(), BLOCK_S);
        assertEquals(8, found.get(1).fromS(), BLOCK_S);
    }

    @Test
    void knocksThatNeverCeaseAreHowTheEngineSounds() {
        double[] x = engine(0);
        for (double atS = 0.1; atS < 9.5; atS += 0.5) {
            over(atS, atS + 0.3, (v, t) -> v + 60 * Math.exp(-60 * t) * Math.sin(1000 * t), x);
        }
        assertEquals(List.of(), notes(x));
    }

    @Test
    void saysWhenTheProbeWasTurned() {
        double[] x = engine(9.8);
        double[] y = engine(0);
        double turned = Math.toRadians(20);
        over(5, LENGTH_S, (v, t) -> v - 9.8 + 9.8 * Math.cos(turned), x);
        over(5, LENGTH_S, (v, t) -> v + 9.8 * Math.sin(turned), y);
        List<TimeRange> found = ranges(notes(x, y), QualityProblem.TILT);
        assertEquals(1, found.size());
        assertRange(4.75, 5.25, found.get(0), 1e-9);
    }

    @Test
    void aTurnByFiveDegreesIsAnUnsteadyHand() {
        double[] x = engine(0);
        over(5, LENGTH_S, (v, t) -> v + 9.8 * Math.sin(Math.toRadians(5)), x);
        assertEquals(List.of(), notes(x));
    }

    @Test
    void saysFromWhenOnTheProbeWasHeldDifferently() {
        double[] x = engine(0);
        double[] soft = new double[x.length];
        for (int i = 1; i < x.length; i++) {
            soft[i] = 0.8 * soft[i - 1] + 0.2 * x[i];
        }
        over(6, LENGTH_S, (v, t) -> soft[(int) Math.rint((6 + t) * RATE_HZ)], x);
        List<TimeRange> found = ranges(notes(x), QualityProblem.MOUNT_CHANGE);
        assertRange(6, LENGTH_S, found.get(0), HoldCheck.WINDOW_S);
    }

    @Test
    void theSameChangeOfGainIsNoChangeOfHold() {
        double[] x = engine(0);
        over(6, LENGTH_S, (v, t) -> 0.6 * v, x);
        assertEquals(List.of(), notes(x));
    }

    @Test
    void whatWasNotedWhileRecordingIsRuledOutAndNotFoundAgain() {
        double[] x = engine(0);
        over(3, 4, (v, t) -> 0, x);
        TimeRange gap = new TimeRange(3, 4);
        CaptureInput input =
                input(Regime.IDLE, x)
                        .withRecorded(
                                List.of(
                                        new QualityNote(
                                                "",
                                                QualityProblem.MISSING_SAMPLES,
                                                List.of(gap),
                                                "")));
        SignalQuality quality = SignalQuality.of(input);
        assertEquals(
                List.of(
                        new QualityNote(
                                "c01",
                                QualityProblem.MISSING_SAMPLES,
                                List.of(gap),
                                "Noted while it was recorded, from 3.0 s to 4.0 s.")),
                quality.notes());
        assertEquals(List.of(gap), quality.ruledOut());
    }

    @Test
    void whereTheAngleIsAGuessNothingIsUsable() {
        SignalQuality quality =
                SignalQuality.of(
                        input(Regime.IDLE, engine(0))
                                .withAngleUnknown(List.of(new TimeRange(2, 3))));
        assertRange(2, 3, ranges(quality.notes(), QualityProblem.TACH_DROPOUT).get(0), 0);
        assertFalse(quality.usable(2.9, 3.0));
        assertFalse(quality.usable(3.01, 3.015), "guard");
        assertTrue(quality.usable(3.03, 3.1));
    }

    @Test
    void namesThreePlacesAndCountsTheOthers() {
        List<TimeRange> two = List.of(new TimeRange(3.1, 3.2), new TimeRange(5, 6.25));
        assertEquals("at 3.2 s and from 5.0 s to 6.3 s", QualityWords.when(two));
        List<TimeRange> many =
                List.of(
                        new TimeRange(3.2, 3.2),
                        new TimeRange(7.9, 7.9),
                        new TimeRange(8, 8),
                        new TimeRange(9, 9));
        assertEquals("at 3.2 s, at 7.9 s and at 2 more places", QualityWords.when(many));
    }

    @Test
    void tooLittleLeftIsRefusedInOneSentence() {
        double[] x = engine(0);
        List<TimeRange> gaps = List.of(new TimeRange(0.5, 9.5));
        CaptureInput input = input(Regime.IDLE, x).withAngleUnknown(gaps);
        DriveModel drive = crankAlone();
        UnusableCaptureException e =
                assertThrows(
                        UnusableCaptureException.class, () -> CaptureMeasurement.of(input, drive));
        assertEquals(QualityProblem.TOO_LITTLE_LEFT, e.problem());
        assertEquals(
                "Only 1.0 s of 10.0 s can be used, the rest is ruled out (tach dropout): repeat"
                        + " this capture.",
                e.getMessage());
    }

    private static DriveModel crankAlone() {
        return DriveModel.of(
                new Vehicle(
                        "ML-01",
                        "",
                        Engine.of(4, 4),
                        List.of(),
                        List.of(Pulley.named("crank", Role.CRANK, 150).build())));
    }

    private static CaptureMeasurement touch(String id, double gain)
            throws UnusableCaptureException {
        double[] x = engine(0);
        Arrays.setAll(x, i -> gain * x[i]);
        CaptureInput input =
                new CaptureInput(
                        new CaptureLabel(
                                id, "idler", "", Mount.HAND, Regime.IDLE, Condition.UNLOADED),
                        RATE_HZ,
                        new double[][] {x},
                        ShaftAngle.steady(CRANK_HZ, LENGTH_S),
                        "known");
        return CaptureMeasurement.of(input, crankAlone());
    }

    @Test
    void namesTheTouchThatIsUnlikeItsSisters() throws UnusableCaptureException {
        CaptureMeasurement a = touch("a", 1);
        CaptureMeasurement b = touch("b", 1.3);
        CaptureMeasurement odd = touch("odd", 0.2);
        List<QualityNote> notes = TouchCheck.notes(List.of(a, odd, b));
        assertEquals(1, notes.size(), notes.toString());
        assertEquals("odd", notes.get(0).capture());
        // 1/0.2 is 14 dB.
        assertTrue(notes.get(0).text().startsWith("This touch is 14 dB quieter"), notes.toString());
        assertEquals(List.of(), TouchCheck.notes(List.of(a, odd)), "two cannot tell");
    }

    @ParameterizedTest
    @EnumSource(QualityProblem.class)
    void everyProblemHasAWordOfItsOwn(QualityProblem problem) {
        assertEquals(Optional.of(problem), QualityProblem.ofWord(problem.word()));
        assertFalse(problem.repeatBecause().endsWith("."));
    }
}
