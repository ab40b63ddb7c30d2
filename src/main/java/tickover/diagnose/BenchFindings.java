package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.ToDoubleFunction;

/**
 * Judges whether a part on the bench runs true, whether it has play, and whether its bearing is
 * rough or dry.
 *
 * <p>Play shows by itself: a part with play lands hard every second or third turn, which nothing
 * that turns with the shaft does. Running out of true does not: an unbalanced chuck does the same,
 * so that without a known-good part it is possible at most. Roughness without a spot shows as
 * ringing that swells with the turn and with the cage at once; damaged balls do something similar.
 */
final class BenchFindings {
    /**
     * Evidence for a fraction of a turn that counts. On simulated benches of the tuning seeds sound
     * parts whose ringing swells by a tenth stay below 5.
     */
    private static final double CLEAR_NATS = 10;

    private static final double SOME_NATS = 5;

    /**
     * A fraction must shake or ring this much, for in a long record everything is certain. Shaking
     * alone is possible at most: a motor that turns half as fast as the spindle does it too.
     */
    private static final double PLAY_SWING_RATIO = 0.1;

    private static final double PLAY_MOTION_RATIO = 0.3;

    /**
     * Once-per-turn velocity from which run-out is worth a dial gauge, mm/s rms. A working value:
     * sound parts on simulated benches reach 1.5, and no real bench was at hand.
     */
    private static final double WORTH_A_GAUGE_MMPS = 2;

    /** Swing with turn and with cage from which roughness is possible. */
    private static final double ROUGH_TURN_RATIO = 0.15;

    private static final double ROUGH_CAGE_RATIO = 0.1;

    /**
     * Against three known-good parts, whose scatter is in the interval, a level counts when it is
     * surely higher at all, and by this much in the mean.
     */
    private static final double MUCH_DB = 6;

    /**
     * Against fewer, another mounting and another sound part move levels by more than the interval
     * says: 2 dB each, four standard deviations together.
     */
    private static final double MUCH_WITHOUT_TOUCHES_DB = 10;

    private final List<TurnSigns> perChannel;
    private final List<BenchDifference> differences;

    private BenchFindings(List<TurnSigns> perChannel, List<BenchDifference> differences) {
        this.perChannel = perChannel;
        this.differences = differences;
    }

    /** Signs of every channel. */
    static List<TurnSigns> signs(BenchTake take) {
        List<TurnSigns> signs = new ArrayList<>();
        for (double[] x : take.record().channelsMps2()) {
            TurnOrders orders =
                    TurnOrders.of(
                            x,
                            take.record().sampleRateHz(),
                            take.turnsAtS(),
                            Bench.speedErrorRatio(take));
            signs.add(TurnSigns.of(orders, take.meanHz(), take.orders()));
        }
        return signs;
    }

    /**
     * Judges.
     *
     * @param take the record
     * @param goods known-good records of like parts, perhaps none
     * @param differences the record against them, perhaps none
     * @param verdict what the bearing's patterns say
     */
    static List<BenchFinding> of(
            BenchTake take,
            List<BenchTake> goods,
            List<BenchDifference> differences,
            BenchVerdict verdict) {
        BenchFindings all = new BenchFindings(signs(take), differences);
        BenchFinding loose = all.loose(goods);
        return List.of(
                all.eccentric(),
                loose,
                all.rough(verdict, loose.state() == BenchFinding.State.SEEN));
    }

    private BenchFinding eccentric() {
        int channel = best(TurnSigns::turnMmps);
        TurnSigns signs = perChannel.get(channel);
        String level = number(signs.turnMmps()) + " mm/s once per turn";
        String harmonics =
                " (harmonics two to six: " + number(signs.harmonicMmps()) + " mm/s together)";
        Optional<BenchDifference> against = difference(BenchComparison.TURN);
        if (against.isPresent()) {
            String compared = ", " + against(against.get());
            return isMuchMore(against.get()) && signs.turnMmps() >= WORTH_A_GAUGE_MMPS
                    ? finding(
                            Fault.ECCENTRIC,
                            BenchFinding.State.SEEN,
                            channel,
                            "It moves "
                                    + level
                                    + compared
                                    + harmonics
                                    + ": out of true or out of balance. Hold a dial gauge against"
                                    + " the groove: more than 0.25 mm is too much.")
                    : finding(
                            Fault.ECCENTRIC,
                            BenchFinding.State.NOT_SEEN,
                            channel,
                            "It moves "
                                    + level
                                    + compared
                                    + ": no more than good parts differ by.");
        }
        boolean dominates = signs.turnMmps() > signs.harmonicMmps();
        return signs.turnMmps() >= WORTH_A_GAUGE_MMPS && dominates
                ? finding(
                        Fault.ECCENTRIC,
                        BenchFinding.State.POSSIBLE,
                        channel,
                        "It moves "
                                + level
                                + harmonics
                                + ". A pulley out of true does that, and so does a chuck that does"
                                + " not run true: hold a dial gauge against the groove (more than"
                                + " 0.25 mm is too much), or record a known-good part on the same"
                                + " bench and give it with --good.")
                : finding(
                        Fault.ECCENTRIC,
                        BenchFinding.State.NOT_SEEN,
                        channel,
                        "It moves " + level + harmonics + ": nothing out of the ordinary.");
    }

    private BenchFinding loose(List<BenchTake> goods) {
        int channel = best(s -> s.fraction().evidenceNats());
        TurnSigns.Fraction f = perChannel.get(channel).fraction();
        // The best of several channels is looked at.
        double nats = f.evidenceNats() - Math.log(perChannel.size());
        boolean strong = f.swingRatio() >= PLAY_SWING_RATIO || f.motionRatio() >= PLAY_MOTION_RATIO;
        String every = f.everyTurns() == 2 ? "second" : "third";
        String seen =
                "The knocks and shaking repeat every "
                        + every
                        + " turn (the ringing swells by "
                        + percent(f.swingRatio())
                        + " of its mean)";
        boolean goodToo =
                goods.stream()
                        .flatMap(g -> signs(g).stream())
                        .anyMatch(
                                s ->
                                        s.fraction().everyTurns() == f.everyTurns()
                                                && s.fraction().evidenceNats() >= SOME_NATS);
        if (nats >= SOME_NATS && strong && goodToo) {
            return finding(
                    Fault.LOOSE,
                    BenchFinding.State.NOT_SEEN,
                    channel,
                    seen + ", but so they do with a known-good part: it is the bench.");
        }
        if (nats >= CLEAR_NATS && f.swingRatio() >= PLAY_SWING_RATIO) {
            return finding(
                    Fault.LOOSE,
                    BenchFinding.State.SEEN,
                    channel,
                    seen
                            + ", which nothing that sits tight does: play. Check the clamping of"
                            + " the part first, then rock the ring by hand for play in the"
                            + " bearing or its seat.");
        }
        if (nats >= SOME_NATS && strong) {
            return finding(
                    Fault.LOOSE,
                    BenchFinding.State.POSSIBLE,
                    channel,
                    seen
                            + ", not clearly enough to be sure; a motor that turns at a fraction of"
                            + " the speed does it too. Check the clamping, record for"
                            + " longer, and rock the ring by hand for play.");
        }
        return finding(
                Fault.LOOSE,
                BenchFinding.State.NOT_SEEN,
                channel,
                "Nothing repeats every second or third turn, as it does with play.");
    }

    private BenchFinding rough(BenchVerdict verdict, boolean loose) {
        int channel = best(s -> Math.min(s.turnSwingRatio(), 1.5 * s.cageSwingRatio()));
        TurnSigns signs = perChannel.get(channel);
        boolean spot = verdict != BenchVerdict.HEALTHY && verdict != BenchVerdict.UNCLEAR;
        boolean ring = verdict == BenchVerdict.OUTER_RING || verdict == BenchVerdict.INNER_RING;
        String swings =
                "the ringing swells by "
                        + percent(signs.turnSwingRatio())
                        + " of its mean with the turn and by "
                        + percent(signs.cageSwingRatio())
                        + " with the cage";
        for (IsoBand band : List.of(IsoBand.HIGH, IsoBand.MEDIUM)) {
            Optional<BenchDifference> d = difference(band.accelerationName());
            if (d.isPresent() && isMuchMore(d.get()) && !spot && !loose) {
                return finding(
                        Fault.BEARING_ROUGH,
                        BenchFinding.State.SEEN,
                        channel,
                        "From "
                                + band.words()
                                + " it is "
                                + against(d.get())
                                + ", without the rhythm of a single spot: rough, worn all over or"
                                + " dry. Turn it slowly by hand and feel; grease may quieten it"
                                + " for a while and proves nothing.");
            }
        }
        boolean fits =
                signs.turnSwingRatio() >= ROUGH_TURN_RATIO
                        && signs.cageSwingRatio() >= ROUGH_CAGE_RATIO
                        && signs.turnSwingRatio() >= signs.cageSwingRatio();
        if (fits && !ring && !loose) {
            return finding(
                    Fault.BEARING_ROUGH,
                    BenchFinding.State.POSSIBLE,
                    channel,
                    swings.substring(0, 1).toUpperCase(Locale.ROOT)
                            + swings.substring(1)
                            + ", as in a rough or dry bearing; a damaged ball can do the same."
                            + " Turn it slowly by hand and feel; a known-good part on the same"
                            + " bench (--good) decides.");
        }
        return finding(
                Fault.BEARING_ROUGH,
                BenchFinding.State.NOT_SEEN,
                channel,
                differences.isEmpty()
                        ? "Roughness all over shows only against a known-good part; here "
                                + swings
                                + "."
                        : "No louder than a known-good part where a rough bearing is.");
    }

    private static boolean isMuchMore(BenchDifference d) {
        return d.coversTouches()
                ? d.change().lowDb() > 0 && d.change().changeDb() >= MUCH_DB
                : d.change().lowDb() >= MUCH_WITHOUT_TOUCHES_DB;
    }

    private static String against(BenchDifference d) {
        return String.format(
                Locale.ROOT,
                "%+.1f dB against the known-good part (%+.1f to %+.1f)",
                d.change().changeDb(),
                d.change().lowDb(),
                d.change().highDb());
    }

    private Optional<BenchDifference> difference(String name) {
        return differences.stream().filter(d -> d.name().equals(name)).findFirst();
    }

    private int best(ToDoubleFunction<TurnSigns> by) {
        int best = 0;
        for (int c = 1; c < perChannel.size(); c++) {
            if (by.applyAsDouble(perChannel.get(c)) > by.applyAsDouble(perChannel.get(best))) {
                best = c;
            }
        }
        return best;
    }

    private BenchFinding finding(Fault fault, BenchFinding.State state, int channel, String text) {
        return new BenchFinding(fault, state, channel, text);
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, value < 1 ? "%.2f" : "%.1f", value);
    }

    private static String percent(double ratio) {
        return Math.round(100 * Math.min(1, ratio)) + " %";
    }
}
