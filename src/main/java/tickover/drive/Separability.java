package tickover.drive;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Which lines of a drive a capture of given length and speed can tell apart by order, before it is
 * taken.
 *
 * <p>Two lines are resolved when they stand at least a Hann window's main lobe apart: 4 bins of
 * 1/turns each. They are apart in place when their search ranges do not meet. Both are needed to
 * say which part a line belongs to.
 *
 * <p>Two lines of one part are not a pair: that they meet does not hide the part. Nor are the
 * crank's and the engine's, which are one shaft. The engine and the crank may make every harmonic
 * of their lines; other parts' lines count with a stated number of harmonics.
 */
public final class Separability {
    /** Width of a Hann window's main lobe between its zeros, in bins of 1/turns. */
    static final double MAIN_LOBE_BINS = 4;

    /**
     * What is asked.
     *
     * @param captureS length of the capture, s, &gt; 0
     * @param speedRpm its crank speed, rpm, &gt; 0
     * @param harmonics how many harmonics of each line count, 1 for the lines alone
     * @param engineOrders up to which order harmonics of the engine's and the crank's lines count,
     *     per crank turn, &gt;= 0
     */
    public record Spec(double captureS, double speedRpm, int harmonics, double engineOrders) {
        public Spec {
            if (!(captureS > 0 && Double.isFinite(captureS))) {
                throw new IllegalArgumentException("captureS=" + captureS + ", need > 0 s");
            }
            if (!(speedRpm > 0 && Double.isFinite(speedRpm))) {
                throw new IllegalArgumentException("speedRpm=" + speedRpm + ", need > 0 rpm");
            }
            if (!(harmonics >= 1 && harmonics <= 50)) {
                throw new IllegalArgumentException("harmonics=" + harmonics + ", need 1 to 50");
            }
            if (!(engineOrders >= 0 && engineOrders <= 1000)) {
                throw new IllegalArgumentException(
                        "engineOrders=" + engineOrders + ", need 0 to 1000 per crank turn");
            }
        }

        /**
         * Returns crank turns in the capture.
         *
         * @return turns
         */
        public double turns() {
            return captureS * speedRpm / 60;
        }

        /**
         * Returns how far apart two orders must be to be resolved.
         *
         * @return 4/turns, per crank turn
         */
        public double resolutionOrders() {
            return MAIN_LOBE_BINS / turns();
        }
    }

    private final Spec spec;
    private final Set<String> crankshaft;
    private final List<LineHarmonic> candidates;
    private final List<LinePair> pairs;

    private Separability(Set<String> crankPulleys, List<PartLine> lines, Spec spec) {
        this.spec = Objects.requireNonNull(spec, "spec");
        this.crankshaft = crankshaft(crankPulleys);
        this.candidates = candidates(lines);
        this.pairs = findPairs();
    }

    /**
     * Compares all lines of a drive.
     *
     * @param model the drive
     * @param spec capture and harmonics
     * @return the comparison
     */
    public static Separability of(DriveModel model, Spec spec) {
        return of(model.vehicle(), model.lines(), spec);
    }

    static Separability of(Vehicle vehicle, List<PartLine> lines, Spec spec) {
        Set<String> crankPulleys =
                vehicle.pulleys().stream()
                        .filter(p -> p.role() == Role.CRANK)
                        .map(Pulley::name)
                        .collect(Collectors.toSet());
        return new Separability(crankPulleys, lines, spec);
    }

    private static Set<String> crankshaft(Set<String> crankPulleys) {
        Set<String> parts = new HashSet<>(crankPulleys);
        parts.add(PartLine.ENGINE);
        return Set.copyOf(parts);
    }

    private boolean onCrankshaft(PartLine line) {
        return crankshaft.contains(line.part());
    }

    private List<LineHarmonic> candidates(List<PartLine> lines) {
        double firingOrders =
                lines.stream()
                        .filter(
                                l ->
                                        l.part().equals(PartLine.ENGINE)
                                                && l.kind().equals(LineKind.FIRING))
                        .mapToDouble(PartLine::order)
                        .findFirst()
                        .orElse(0);
        List<LineHarmonic> list = new ArrayList<>();
        for (PartLine line : lines) {
            boolean own = onCrankshaft(line);
            int last =
                    own ? (int) Math.floor(spec.engineOrders() / line.order()) : spec.harmonics();
            for (int k = 1; k <= last; k++) {
                LineHarmonic m = new LineHarmonic(line, k);
                boolean goesByFiring =
                        line.part().equals(PartLine.ENGINE)
                                && line.kind().equals(LineKind.CYCLE)
                                && Math.IEEEremainder(m.orders(), firingOrders) == 0;
                if (!goesByFiring) {
                    list.add(m);
                }
            }
        }
        return List.copyOf(list);
    }

    private List<LinePair> findPairs() {
        List<LinePair> found = new ArrayList<>();
        for (int i = 0; i < candidates.size(); i++) {
            LineHarmonic a = candidates.get(i);
            for (LineHarmonic b : candidates.subList(i + 1, candidates.size())) {
                boolean onePart = a.line().part().equals(b.line().part());
                boolean oneShaft = onCrankshaft(a.line()) && onCrankshaft(b.line());
                if (!onePart && !oneShaft && !reducible(a, b)) {
                    LinePair pair = LinePair.judge(a, b, spec.resolutionOrders());
                    if (pair.parting() != Parting.PARTED) {
                        found.add(pair);
                    }
                }
            }
        }
        return List.copyOf(found);
    }

    /** Whether the pair repeats one of lower harmonics: the second of both after the first. */
    private static boolean reducible(LineHarmonic a, LineHarmonic b) {
        int m = a.number();
        int n = b.number();
        while (n != 0) {
            int rest = m % n;
            m = n;
            n = rest;
        }
        return m > 1;
    }

    /**
     * Returns what was asked.
     *
     * @return capture and harmonics
     */
    public Spec spec() {
        return spec;
    }

    /**
     * Returns the pairs that the capture cannot tell apart.
     *
     * @return every pair of lines of different parts that is not {@link Parting#PARTED}, of
     *     harmonics whose numbers have no common divisor
     */
    public List<LinePair> pairs() {
        return pairs;
    }

    /**
     * Finds out who else may be heard at an order.
     *
     * @param part the part that is looked at
     * @param order where its line was found or is expected, per crank turn
     * @return names of other parts that have a line or harmonic closer than the resolution, each
     *     once; engine and crank pulleys do not count against each other
     */
    public List<String> sharedWith(String part, double order) {
        return candidates.stream()
                .filter(m -> Math.abs(m.orders() - order) < spec.resolutionOrders())
                .map(m -> m.line().part())
                .filter(p -> !p.equals(part))
                .filter(p -> !(crankshaft.contains(part) && crankshaft.contains(p)))
                .distinct()
                .toList();
    }
}
