package tickover.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import tickover.drive.PartLine;
import tickover.drive.PartWords;
import tickover.drive.Pulley;
import tickover.drive.Role;
import tickover.drive.Vehicle;

/**
 * Names the tests that would tell most about the source for their work and risk.
 *
 * <p>Each test the visit has not done yet is described by the chance of a positive outcome under
 * every candidate. The expected information is the mutual information between outcome and
 * component, in bits, under the ranking's probabilities. The chances are judgement (common
 * practice), not measurement: they say how well such a test usually discriminates, and are the same
 * for every engine.
 */
final class TestPlanner {
    /** Belt-driven parts fall silent with the belt off, with this chance to hear it right. */
    private static final double BELT_OFF_SURE = 0.95;

    /** The own point is the strongest with this chance, another part's point with the next. */
    private static final double OWN_POINT_STRONGEST = 0.85;

    private static final double OTHER_POINT_STRONGEST = 0.12;

    /** Switching a part's own load changes its noise, with this chance; another's with the next. */
    private static final double LOAD_CHANGES_OWN = 0.7;

    private static final double LOAD_CHANGES_OTHER = 0.12;

    /** A tick stops with its own injector unplugged. */
    private static final double UNPLUG_STOPS_OWN = 0.92;

    private static final double UNPLUG_STOPS_OTHER = 0.04;

    /** A bearing turned by hand or on a bench shows its fault; a good one seems bad. */
    private static final double BENCH_SHOWS = 0.9;

    private static final double BENCH_MISLEADS = 0.07;

    /** A test that tells less than this is not worth naming, bits. */
    private static final double LEAST_GAIN_BITS = 0.005;

    /** A part this probable needs no further test. */
    private static final double SURE_PROBABILITY = 0.98;

    private static final int MOST_TESTS = 3;

    private static final double POINT_MINUTES = 2;
    private static final double LOAD_MINUTES = 3;
    private static final double STEERING_MINUTES = 4;
    private static final double UNPLUG_MINUTES = 5;
    private static final double BELT_OFF_MINUTES = 15;
    private static final double BENCH_MINUTES = 40;

    private static final String RUNNING_CAUTION =
            " Before starting: nothing loose, leads tied clear of belt and fan; touch only metal"
                    + " that stands still.";

    private final Vehicle vehicle;
    private final List<Candidate> candidates;
    private final List<CaptureLabel> done;

    private TestPlanner(Vehicle vehicle, List<Candidate> candidates, List<CaptureLabel> done) {
        this.vehicle = vehicle;
        this.candidates = candidates;
        this.done = done;
    }

    /**
     * Lists the best tests.
     *
     * @param vehicle the vehicle
     * @param candidates the ranking, probabilities adding up to 1
     * @param done what has been recorded
     * @return most expected information per minute first, a risk counting as the minutes of {@link
     *     TestRisk}; three at most, of different kinds where there are as many; none if a part is
     *     as good as sure
     */
    static List<NextTest> plan(
            Vehicle vehicle, List<Candidate> candidates, List<CaptureLabel> done) {
        boolean sure =
                candidates.stream()
                        .anyMatch(
                                c ->
                                        c.probability() >= SURE_PROBABILITY
                                                && !c.component().equals(Candidate.NONE));
        if (sure) {
            return List.of();
        }
        TestPlanner planner = new TestPlanner(vehicle, candidates, done);
        List<NextTest> tests = new ArrayList<>();
        planner.points(tests);
        planner.loads(tests);
        planner.beltOff(tests);
        planner.injectors(tests);
        planner.bench(tests);
        tests.removeIf(t -> t.expectedGainBits() < LEAST_GAIN_BITS);
        tests.sort(
                Comparator.comparingDouble(
                                (NextTest t) ->
                                        t.expectedGainBits()
                                                / (t.minutes() + TestRisk.of(t.kind()).minutes()))
                        .reversed());
        return ofEachKind(tests);
    }

    /** The best of each kind before a second of any: one more of the same tells much the same. */
    private static List<NextTest> ofEachKind(List<NextTest> best) {
        List<NextTest> chosen = new ArrayList<>();
        Set<String> kinds = new HashSet<>();
        best.stream()
                .filter(t -> chosen.size() < MOST_TESTS && kinds.add(t.kind()))
                .forEach(chosen::add);
        best.stream()
                .filter(t -> chosen.size() < MOST_TESTS && !chosen.contains(t))
                .forEach(chosen::add);
        return List.copyOf(chosen);
    }

    private void points(List<NextTest> tests) {
        Set<String> probed = new HashSet<>();
        for (CaptureLabel label : done) {
            probed.add(label.point());
        }
        for (Candidate c : candidates) {
            String point = ownPoint(c.component());
            if (point.isEmpty() || probed.contains(point)) {
                continue;
            }
            double gain =
                    gainBits(
                            o ->
                                    ownPoint(o).equals(point)
                                            ? OWN_POINT_STRONGEST
                                            : OTHER_POINT_STRONGEST);
            tests.add(
                    new NextTest(
                            "point",
                            "Record 10 s with the probe on "
                                    + PartWords.the(point)
                                    + " (a bolt head or the housing). Stronger there than at the"
                                    + " other points speaks for "
                                    + PartWords.the(c.component())
                                    + "; weaker speaks against it."
                                    + RUNNING_CAUTION,
                            POINT_MINUTES,
                            gain));
        }
    }

    private void loads(List<NextTest> tests) {
        for (SwitchedLoad load : SwitchedLoad.values()) {
            boolean seen = done.stream().anyMatch(l -> load.isOn(l.condition()));
            Set<String> parts = new LinkedHashSet<>();
            for (Pulley p : vehicle.pulleys()) {
                if (p.role() == load.role()) {
                    parts.add(p.name());
                }
            }
            if (seen || parts.isEmpty()) {
                continue;
            }
            double gain = gainBits(o -> parts.contains(o) ? LOAD_CHANGES_OWN : LOAD_CHANGES_OTHER);
            tests.add(
                    new NextTest(
                            "load-" + load.word(),
                            "Record the loudest point again with "
                                    + load.instruction()
                                    + ". A clear change speaks for "
                                    + PartWords.list(parts, "or")
                                    + "; none speaks against the part behind the pulley, though a"
                                    + " pulley's own bearing turns in both states."
                                    + RUNNING_CAUTION,
                            load == SwitchedLoad.STEERING ? STEERING_MINUTES : LOAD_MINUTES,
                            gain));
        }
    }

    private void beltOff(List<NextTest> tests) {
        if ((vehicle.belts().isEmpty() && vehicle.pulleys().size() < 2)
                || done.stream().anyMatch(l -> !l.condition().beltOn())) {
            return;
        }
        double gain = gainBits(o -> isBeltDriven(o) ? BELT_OFF_SURE : 1 - BELT_OFF_SURE);
        tests.add(
                new NextTest(
                        "belt-off",
                        "Take the belt off and record 10 s. If the noise is gone it is belt-driven"
                            + " (which part, this test cannot say, for every bearing is unloaded"
                            + " too); if it stays it is in the engine. Engine cold and standing"
                            + " still while you work; run it 30 to 60 s, never over 2 min: no"
                            + " coolant pump, no charging, no steering assistance, and fault codes"
                            + " may be set. The maker's instructions come first.",
                        BELT_OFF_MINUTES,
                        gain));
    }

    private void injectors(List<NextTest> tests) {
        for (Candidate c : candidates) {
            if (!c.component().startsWith("injector-")) {
                continue;
            }
            int number;
            try {
                number = Integer.parseInt(c.component().substring("injector-".length()));
            } catch (NumberFormatException e) {
                continue;
            }
            boolean seen =
                    done.stream()
                            .anyMatch(
                                    l ->
                                            l.condition().injectorOff().isPresent()
                                                    && l.condition().injectorOff().getAsInt()
                                                            == number);
            if (seen) {
                continue;
            }
            double gain =
                    gainBits(o -> o.equals(c.component()) ? UNPLUG_STOPS_OWN : UNPLUG_STOPS_OTHER);
            tests.add(
                    new NextTest(
                            "injector-off",
                            "Unplug "
                                    + PartWords.the(c.component())
                                    + " and record 10 s at the same point. If the tick stops it is"
                                    + " that injector; if it stays it is not. Keep it brief: raw"
                                    + " fuel harms the catalyst. Never probe or loosen a"
                                    + " high-pressure line; the maker's instructions come first.",
                            UNPLUG_MINUTES,
                            gain));
        }
    }

    private void bench(List<NextTest> tests) {
        for (Candidate c : candidates) {
            boolean pulley = vehicle.pulley(c.component()).isPresent();
            if (!pulley || vehicle.pulley(c.component()).get().role() == Role.CRANK) {
                continue;
            }
            double gain = gainBits(o -> o.equals(c.component()) ? BENCH_SHOWS : BENCH_MISLEADS);
            tests.add(
                    new NextTest(
                            "bench",
                            "Take "
                                    + PartWords.the(c.component())
                                    + " off and turn it at a steady speed under a little side load"
                                    + " with the probe on its standing part, then ask `tickover"
                                    + " bench`. A fault there proves it; a good result clears it."
                                    + " Engine off and key out before belt work; mark the belt's"
                                    + " direction; torque to the maker's data.",
                            BENCH_MINUTES,
                            gain));
        }
    }

    /** Mutual information between a yes/no outcome and the component, bits. */
    private double gainBits(java.util.function.ToDoubleFunction<String> chanceOfYes) {
        double yes = 0;
        double conditional = 0;
        for (Candidate c : candidates) {
            // With a healthy engine there is nothing to follow, and the outcome is a coin's.
            double p =
                    c.component().equals(Candidate.NONE)
                            ? 0.5
                            : chanceOfYes.applyAsDouble(c.component());
            yes += c.probability() * p;
            conditional += c.probability() * entropyBits(p);
        }
        return Math.max(0, entropyBits(yes) - conditional);
    }

    private static double entropyBits(double p) {
        if (!(p > 0 && p < 1)) {
            return 0;
        }
        return -(p * Math.log(p) + (1 - p) * Math.log1p(-p)) / Math.log(2);
    }

    private String ownPoint(String component) {
        if (component.equals("valve-train")) {
            return InjectorPoint.VALVE_COVER;
        }
        if (component.equals(PartLine.ENGINE)) {
            return Suspects.BLOCK;
        }
        boolean known = component.startsWith("injector-") || vehicle.pulley(component).isPresent();
        return known ? component : "";
    }

    private boolean isBeltDriven(String component) {
        return component.startsWith("belt:")
                || vehicle.pulley(component).filter(p -> p.role() != Role.CRANK).isPresent();
    }
}
