package tickover.align;

import java.util.Arrays;

/**
 * A row of messages that are all late, over a line that stays as it was. Lateness ends; after a
 * step of a clock everything stays late by the same. Which of the two it is nothing but patience
 * tells.
 */
final class LateRun {
    /** How long all must have been late by the same, s: schedulers starve a program for less. */
    static final int PATIENCE_S = 20;

    /** After so long a line that nothing comes near is given up, whatever the lateness does, s. */
    static final int GIVE_UP_S = 60;

    /** After so long without one message in time the line is doubted, s. */
    static final int DOUBT_S = 4;

    /** How seldom a row of messages may be late by chance alone and still count. */
    private static final double BY_CHANCE = 1e-9;

    /** The share of late messages is taken over about so many. */
    private static final double SHARE_OVER = 1024;

    /** The least lateness has to be the same in so many parts of the patience. */
    private static final int PARTS = 3;

    private final double[] leastBySecond = new double[PATIENCE_S + 1];
    private double heard;
    private double heardInTime;
    private boolean on;
    private double fromX;
    private double fromHostS;
    private long first;
    private long messages;
    private double needed;
    private int second;
    private double lastS;

    /** A message came in time, or a ping said that the line holds. */
    void end() {
        on = false;
    }

    boolean on() {
        return on;
    }

    /** Number of the first message that was late. */
    long first() {
        return first;
    }

    /** Counts a message that was in time. */
    void inTime() {
        share(1);
        end();
    }

    /**
     * Counts a message that was late.
     *
     * @param number its number
     * @param x device time, s
     * @param hostS host time, s
     * @param overS how late it is over the line, s
     */
    void late(long number, double x, double hostS, double overS) {
        share(0);
        if (!on || x < fromX) {
            on = true;
            fromX = x;
            fromHostS = hostS;
            first = number;
            messages = 0;
            needed = Math.log(BY_CHANCE) / Math.log1p(-(heardInTime + 1) / (heard + 2));
            second = 0;
            Arrays.fill(leastBySecond, Double.POSITIVE_INFINITY);
        }
        messages++;
        // Both clocks must have run on: what a busy host had left unread comes late in one burst.
        lastS = Math.min(x - fromX, hostS - fromHostS);
        for (; second < (int) lastS; second++) {
            leastBySecond[(second + 1) % leastBySecond.length] = Double.POSITIVE_INFINITY;
        }
        int slot = second % leastBySecond.length;
        leastBySecond[slot] = Math.min(leastBySecond[slot], overS);
    }

    private void share(int inTime) {
        double kept = 1 - 1 / SHARE_OVER;
        heard = heard * kept + 1;
        heardInTime = heardInTime * kept + inTime;
    }

    /**
     * How much later than the line says everything has been of late, s; 0 while the line is
     * believed.
     */
    double doubtS() {
        return on && lastS > DOUBT_S ? leastOver(0, DOUBT_S) : 0;
    }

    /** Whether the line is to be given up. */
    boolean givenUp(double marginS) {
        // On a line whose messages are seldom in time, a row of late ones means little.
        return on && messages >= needed && (steady(marginS) || lastS > GIVE_UP_S);
    }

    /** Whether all have been late by the same, within a margin, for long enough. */
    boolean steady(double marginS) {
        if (!on || lastS < PATIENCE_S) {
            return false;
        }
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int part = 0; part < PARTS; part++) {
            double of = leastIn(part);
            lowest = Math.min(lowest, of);
            highest = Math.max(highest, of);
        }
        return highest - lowest < marginS;
    }

    private double leastIn(int part) {
        return leastOver(part * PATIENCE_S / PARTS, (part + 1) * PATIENCE_S / PARTS);
    }

    /** Least lateness from one age up to another, in seconds begun. */
    private double leastOver(int from, int to) {
        double of = Double.POSITIVE_INFINITY;
        for (int s = from; s < to; s++) {
            of = Math.min(of, leastBySecond[(second - s) % leastBySecond.length]);
        }
        return of;
    }

    /** How late the earliest has been of late, s. */
    double recentLeastS() {
        return leastIn(0);
    }
}
