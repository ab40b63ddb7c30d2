package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.order.ShaftAngle;

/** Visits that say little or nothing must not be answered as if they said something. */
class RankingEdgeTest {
    private static final double RATE_HZ = 12_800;
    private static final double LENGTH_S = 8;
    private static final double TURNS_HZ = 13.7;
    private static final double NOISE_MPS2 = 0.1;

    @Test
    void noUsableCaptureIsUnclearAndLeavesOnlyPriors() {
        Findings findings = rank(drive("idler"), List.of());
        assertEquals(Verdict.UNCLEAR, findings.verdict());
        double noEvidence = 0.3;
        assertTrue(findings.firstPart().probability() < noEvidence, findings.toString());
    }

    @Test
    void beltOffAloneNamesNoPart() throws UnusableCaptureException {
        DriveModel drive = drive("idler");
        Condition beltOff = Condition.UNLOADED.withBeltOn(false);
        Findings findings = rank(drive, List.of(measure(drive, noise(1, 0), beltOff)));
        assertEquals(Verdict.UNCLEAR, findings.verdict());
    }

    @Test
    void gravityChangesNothing() throws UnusableCaptureException {
        DriveModel drive = drive("idler");
        double still = healthy(drive, noise(2, 0));
        double pulled = healthy(drive, noise(2, 9.81));
        double roundOff = 1e-6;
        assertEquals(still, pulled, roundOff);
    }

    private static double healthy(DriveModel drive, double[] x) throws UnusableCaptureException {
        return rank(drive, List.of(measure(drive, x, Condition.UNLOADED))).candidates().stream()
                .filter(c -> c.component().equals(Candidate.NONE))
                .findFirst()
                .orElseThrow()
                .probability();
    }

    @Test
    void deadProbeIsNoHealthyEngine() {
        DriveModel drive = drive("idler");
        UnusableCaptureException e =
                assertThrows(
                        UnusableCaptureException.class,
                        () ->
                                measure(
                                        drive,
                                        new double[(int) (LENGTH_S * RATE_HZ)],
                                        Condition.UNLOADED));
        assertEquals(QualityProblem.FLAT, e.problem());
    }

    @Test
    void slowSensorIsRefusedInOneSentence() {
        DriveModel drive = drive("idler");
        CaptureInput slow = input(noise(3, 0), 400, LENGTH_S * RATE_HZ / 400, Condition.UNLOADED);
        UnusableCaptureException e =
                assertThrows(
                        UnusableCaptureException.class, () -> CaptureMeasurement.of(slow, drive));
        assertTrue(e.getMessage().contains("400 Hz"), e.getMessage());
    }

    @Test
    void driveThatNobodyDescribedIsNotCalledSound() throws UnusableCaptureException {
        DriveModel bare =
                DriveModel.of(new Vehicle("ML-01", "", Engine.of(4, 4), List.of(), List.of()));
        Findings findings = rank(bare, List.of(measure(bare, noise(4, 0), Condition.UNLOADED)));
        assertEquals(Verdict.UNCLEAR, findings.verdict());
    }

    @Test
    void pulleyCalledNoneDoesNotBreakTheSum() throws UnusableCaptureException {
        DriveModel drive = drive(Candidate.NONE);
        Findings findings = rank(drive, List.of(measure(drive, noise(5, 0), Condition.UNLOADED)));
        double sum = findings.candidates().stream().mapToDouble(Candidate::probability).sum();
        double roundOff = 1e-9;
        assertEquals(1, sum, roundOff);
    }

    @Test
    void climbEndsOnTheTopOfABowl() {
        double[] top = {3, -2, 0.5};
        double[] steep = {1, 40, 0.1};
        QuasiNewton climb =
                new QuasiNewton(
                        x -> {
                            double v = 0;
                            for (int i = 0; i < x.length; i++) {
                                v -= steep[i] * (x[i] - top[i]) * (x[i] - top[i]);
                            }
                            return v - 1;
                        },
                        x -> {
                            double[] g = new double[x.length];
                            for (int i = 0; i < x.length; i++) {
                                g[i] = -2 * steep[i] * (x[i] - top[i]);
                            }
                            return g;
                        });
        double[] found = climb.climb(new double[3]);
        double settled = 1e-3; // the climb ends at a gain of a billionth
        for (int i = 0; i < top.length; i++) {
            assertEquals(top[i], found[i], settled);
        }
    }

    private static Findings rank(DriveModel drive, List<CaptureMeasurement> captures) {
        return Ranking.of(
                VisitEvidence.of(drive, captures),
                Complaint.of(""),
                RankingModel.learned(),
                new ArrayList<>());
    }

    private static CaptureMeasurement measure(DriveModel drive, double[] x, Condition condition)
            throws UnusableCaptureException {
        return CaptureMeasurement.of(input(x, RATE_HZ, LENGTH_S, condition), drive);
    }

    private static CaptureInput input(
            double[] x, double rateHz, double lengthS, Condition condition) {
        return new CaptureInput(
                new CaptureLabel("c01", "idler", "radial", Mount.HAND, Regime.IDLE, condition),
                rateHz,
                new double[][] {x},
                ShaftAngle.steady(TURNS_HZ, lengthS),
                "known");
    }

    private static double[] noise(long seed, double gravityMps2) {
        Random random = new Random(seed);
        double[] x = new double[(int) (LENGTH_S * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = gravityMps2 + NOISE_MPS2 * random.nextGaussian();
        }
        return x;
    }

    private static DriveModel drive(String idler) {
        return DriveModel.of(
                new Vehicle(
                        "ML-07",
                        "",
                        Engine.of(4, 4),
                        List.of(),
                        List.of(
                                Pulley.named("crank", Role.CRANK, 165).build(),
                                Pulley.named("alternator", Role.ALTERNATOR, 60).build(),
                                Pulley.named(idler, Role.IDLER, 78).build())));
    }
}
