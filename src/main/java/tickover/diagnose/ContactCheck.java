package tickover.diagnose;

import java.util.ArrayList;
import java.util.List;
import tickover.order.ShaftAngle;
import tickover.order.TimeRange;

/**
 * Finds where the probe was off the part, and where something hit it, from the loudness of short
 * blocks.
 *
 * <p>A probe that is off hears its own noise and the air: treble or middle falls to a small part of
 * the usual. A blow lifts treble or bass far above it and rings down.
 */
final class ContactCheck {
    /** Below this share of the usual treble contact is lost; 16 dB, far beyond a looser grip. */
    private static final double LIFTED_RATIO = 0.15;

    /** On either side of that the contact still comes and goes up to this share. */
    private static final double LOOSE_RATIO = 0.5;

    /**
     * Turns that the crank has to make in the quiet: an engine that ticks once per working cycle is
     * silent in between, and no working cycle is longer than two turns.
     */
    private static final double CYCLE_TURNS = 2;

    /** Above this multiple of the usual it is a blow; 16 dB. */
    private static final double KNOCK_RATIO = 6.0;

    /** A blow rings until the level is back at this multiple of the usual. */
    private static final double RINGING_RATIO = 2.0;

    /** Longest time that either side of a moment belongs to it, blocks: 0.5 s. */
    private static final int LONGEST_SIDE = 10;

    /** Where more than this share of the blocks stands out, that is how the engine sounds. */
    private static final double SINGLE_RATIO = 0.05;

    private ContactCheck() {}

    static List<TimeRange> lost(BlockLevels levels, ShaftAngle angle, boolean steady) {
        // A noisy sensor hides the loss of treble, a trembling hand that of bass; one of them
        // tells.
        List<TimeRange> out = new ArrayList<>(lost(levels, levels.treble(), angle, steady));
        out.addAll(lost(levels, levels.middle(), angle, steady));
        return out;
    }

    private static List<TimeRange> lost(
            BlockLevels levels, double[] x, ShaftAngle angle, boolean steady) {
        double[] usual = levels.usual(x, steady);
        boolean[] core = new boolean[x.length];
        for (int b = 0; b < x.length; b++) {
            core[b] = x[b] < LIFTED_RATIO * usual[b];
        }
        List<TimeRange> out = new ArrayList<>();
        for (int b = 0; b < x.length; b++) {
            int end = b;
            while (end < x.length && core[end]) {
                end++;
            }
            if (end > b && turns(angle, levels.startS(b), levels.startS(end)) > CYCLE_TURNS) {
                int from = b;
                int to = end;
                while (from > 0 && b - from < LONGEST_SIDE && isBelow(x, usual, from - 1)) {
                    from--;
                }
                while (to < x.length && to - end < LONGEST_SIDE && isBelow(x, usual, to)) {
                    to++;
                }
                out.add(new TimeRange(levels.startS(from), levels.startS(to)));
            }
            b = Math.max(b, end);
        }
        return out;
    }

    /** Crank turns between two moments; where the angle is not known, at the speed where it is. */
    private static double turns(ShaftAngle angle, double fromS, double toS) {
        double knownFromS = Math.max(angle.startS(), Math.min(angle.endS(), fromS));
        double knownToS = Math.max(angle.startS(), Math.min(angle.endS(), toS));
        double turns = angle.turnsAt(knownToS) - angle.turnsAt(knownFromS);
        double outsideS = (toS - fromS) - (knownToS - knownFromS);
        double meanHz = (angle.endTurns() - angle.startTurns()) / (angle.endS() - angle.startS());
        return turns + outsideS * meanHz;
    }

    private static boolean isBelow(double[] x, double[] usual, int block) {
        return x[block] < LOOSE_RATIO * usual[block];
    }

    static List<TimeRange> knocks(BlockLevels levels, boolean steady) {
        List<TimeRange> out = new ArrayList<>(knocks(levels, levels.treble(), steady));
        out.addAll(knocks(levels, levels.bass(), steady));
        return out;
    }

    private static List<TimeRange> knocks(BlockLevels levels, double[] x, boolean steady) {
        double[] usual = levels.usual(x, steady);
        List<TimeRange> out = new ArrayList<>();
        int blows = 0;
        for (int b = 0; b < x.length; b++) {
            if (!(x[b] > KNOCK_RATIO * usual[b])) {
                continue;
            }
            blows++;
            int to = b + 1;
            while (to < x.length && to - b < LONGEST_SIDE && x[to] > RINGING_RATIO * usual[to]) {
                to++;
            }
            out.add(new TimeRange(levels.startS(b), levels.startS(to)));
        }
        return blows <= Math.max(2, SINGLE_RATIO * x.length) ? out : List.of();
    }
}
