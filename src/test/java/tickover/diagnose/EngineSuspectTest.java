package tickover.diagnose;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tickover.drive.Condition;
import tickover.drive.DriveModel;
import tickover.drive.Engine;
import tickover.drive.Pulley;
import tickover.drive.PulleyBearing;
import tickover.drive.Ring;
import tickover.drive.Role;
import tickover.drive.Vehicle;
import tickover.order.ShaftAngle;

/** What is in the engine itself must not be looked for in the belt drive. */
class EngineSuspectTest {
    private static final double RATE_HZ = 12_800;
    private static final double LENGTH_S = 8;
    private static final double TURNS_HZ = 13.7;
    private static final double NOISE_MPS2 = 0.1;

    /**
     * Of a bearing on a shaft that turns with the crank; no line of the drive is within 3 % of its
     * multiples.
     */
    private static final double STRIKES_PER_TURN = 4.70;

    private static final Condition BELT_OFF = Condition.UNLOADED.withBeltOn(false);

    private static final DriveModel DRIVE =
            DriveModel.of(
                    new Vehicle(
                            "ML-07",
                            "",
                            Engine.of(4, 4),
                            List.of(),
                            List.of(
                                    Pulley.named("crank", Role.CRANK, 165).build(),
                                    pulley("alternator", Role.ALTERNATOR, 60, Ring.INNER),
                                    pulley("idler", Role.IDLER, 78, Ring.OUTER))));

    private static Pulley pulley(String name, Role role, double diameterMm, Ring ring) {
        return Pulley.named(name, role, diameterMm)
                .bearing(PulleyBearing.ofDesignation("6203", ring))
                .build();
    }

    @Test
    void aNoiseThatStaysWithTheBeltOffSpeaksForTheEngineAndAgainstTheDrive()
            throws UnusableCaptureException {
        List<CaptureMeasurement> running =
                List.of(
                        measure("block", 4, Condition.UNLOADED, 1),
                        measure("idler", 1, Condition.UNLOADED, 2));
        List<CaptureMeasurement> stays = with(running, measure("block", 4, BELT_OFF, 3));
        List<CaptureMeasurement> gone = with(running, measure("block", 0, BELT_OFF, 4));
        double before = engine(running);
        double whenItStays = engine(stays);
        double whenItIsGone = engine(gone);
        assertTrue(whenItStays > before, before + " -> " + whenItStays);
        assertTrue(whenItIsGone < before, before + " -> " + whenItIsGone);
        assertEquals("engine", rank(stays).firstPart().component());
    }

    @Test
    void theReasonNamesNoPartOfTheBeltDrive() throws UnusableCaptureException {
        Findings findings =
                rank(
                        List.of(
                                measure("block", 4, Condition.UNLOADED, 1),
                                measure("idler", 1, Condition.UNLOADED, 2),
                                measure("block", 4, BELT_OFF, 3)));
        String pattern = reason(findings, EvidenceKind.PATTERN);
        assertTrue(pattern.contains("a bearing on a shaft that turns"), pattern);
        String beltOff = reason(findings, EvidenceKind.BELT_OFF);
        assertTrue(beltOff.contains("not belt-driven"), beltOff);
    }

    private static String reason(Findings findings, EvidenceKind kind) {
        return findings.firstPart().evidence().stream()
                .filter(e -> e.kind() == kind)
                .map(Evidence::text)
                .findFirst()
                .orElseThrow();
    }

    private static List<CaptureMeasurement> with(
            List<CaptureMeasurement> captures, CaptureMeasurement more) {
        List<CaptureMeasurement> out = new ArrayList<>(captures);
        out.add(more);
        return out;
    }

    private static double engine(List<CaptureMeasurement> captures) {
        return rank(captures).candidates().stream()
                .filter(c -> c.component().equals("engine"))
                .mapToDouble(Candidate::probability)
                .sum();
    }

    private static Findings rank(List<CaptureMeasurement> captures) {
        return Ranking.of(
                VisitEvidence.of(DRIVE, captures),
                Complaint.of(""),
                RankingModel.learned(),
                new ArrayList<>());
    }

    private static CaptureMeasurement measure(
            String point, double strikeMps2, Condition condition, long seed)
            throws UnusableCaptureException {
        CaptureInput input =
                new CaptureInput(
                        new CaptureLabel(
                                "c0" + seed, point, "radial", Mount.HAND, Regime.IDLE, condition),
                        RATE_HZ,
                        new double[][] {strikes(strikeMps2, seed)},
                        ShaftAngle.steady(TURNS_HZ, LENGTH_S),
                        "known");
        return CaptureMeasurement.of(input, DRIVE);
    }

    /** Noise, and strikes that ring at 3.1 kHz for two milliseconds. */
    private static double[] strikes(double strikeMps2, long seed) {
        Random random = new Random(seed);
        double[] x = new double[(int) (LENGTH_S * RATE_HZ)];
        for (int i = 0; i < x.length; i++) {
            x[i] = NOISE_MPS2 * random.nextGaussian();
        }
        double everyS = 1 / (STRIKES_PER_TURN * TURNS_HZ);
        for (double at = random.nextDouble() * everyS; at < LENGTH_S; at += everyS) {
            int from = (int) Math.ceil(at * RATE_HZ);
            for (int i = from; i < Math.min(x.length, from + 100); i++) {
                double t = i / RATE_HZ - at;
                x[i] += strikeMps2 * Math.exp(-t / 0.002) * Math.sin(2 * Math.PI * 3100 * t);
            }
        }
        return x;
    }
}
