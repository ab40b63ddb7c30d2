package tickover.sim;

import java.util.Arrays;

/**
 * What a bad cable and a lazy converter do to the bytes on their way: bits flip, pieces are cut
 * out, and arrivals are held back. Draws are seeded. One thread.
 */
public final class LineTrouble {
    /**
     * How bad it is.
     *
     * @param bitErrorRatio chance of each bit to flip, 0 to 1
     * @param cutRatio chance of each piece to lose a stretch of its bytes, 0 to 1
     * @param holdS bytes are handed over only at multiples of this, as by a converter's latency
     *     timer, s; 0: at once
     * @param lateS largest further delay of a hand-over, uniform, s
     */
    public record Spec(double bitErrorRatio, double cutRatio, double holdS, double lateS) {
        /** A perfect line. */
        public static final Spec NONE = new Spec(0, 0, 0, 0);

        public Spec {
            if (!(bitErrorRatio >= 0 && bitErrorRatio <= 1 && cutRatio >= 0 && cutRatio <= 1)) {
                throw new IllegalArgumentException(
                        "bitErrorRatio="
                                + bitErrorRatio
                                + ", cutRatio="
                                + cutRatio
                                + ", need 0 to 1");
            }
            if (!(holdS >= 0 && lateS >= 0)) {
                throw new IllegalArgumentException(
                        "holdS=" + holdS + ", lateS=" + lateS + ", need >= 0 s");
            }
        }
    }

    private final Spec spec;
    private final Draw draw;
    private long bitsToNextError;

    /**
     * Draws from a seed.
     *
     * @param spec how bad it is
     * @param seed of the draws
     */
    public LineTrouble(Spec spec, long seed) {
        this.spec = spec;
        this.draw = new Draw(seed);
        this.bitsToNextError = bitsToNextError();
    }

    /**
     * Damages one piece.
     *
     * @param bytes as sent; not changed
     * @return as they arrive, perhaps fewer
     */
    public byte[] damaged(byte[] bytes) {
        byte[] out = bytes.clone();
        long bits = 8L * out.length;
        while (bitsToNextError < bits) {
            out[(int) (bitsToNextError / 8)] ^= (byte) (1 << (bitsToNextError % 8));
            bitsToNextError += 1 + bitsToNextError();
        }
        bitsToNextError -= bits;
        if (out.length > 1 && draw.chance(spec.cutRatio())) {
            int from = (int) draw.between(0, out.length);
            int to = (int) draw.between(from, out.length) + 1;
            byte[] kept = Arrays.copyOf(out, out.length - (to - from));
            System.arraycopy(out, to, kept, from, out.length - to);
            return kept;
        }
        return out;
    }

    /** Geometric waits: the same as a draw for every bit, at the cost of one for every error. */
    private long bitsToNextError() {
        double p = spec.bitErrorRatio();
        if (p <= 0) {
            return Long.MAX_VALUE / 2;
        }
        return (long) Math.floor(Math.log(1 - draw.between(0, 1)) / Math.log1p(-Math.min(p, 0.5)));
    }

    /**
     * Draws when bytes arrive that were sent at a moment.
     *
     * @param sentS true time, s
     * @return true time of arrival, s, not earlier
     */
    public double arrivalS(double sentS) {
        double handedS = spec.holdS() > 0 ? Math.ceil(sentS / spec.holdS()) * spec.holdS() : sentS;
        return handedS + (spec.lateS() > 0 ? draw.between(0, spec.lateS()) : 0);
    }
}
