package tickover.wire;

import java.nio.charset.StandardCharsets;

/**
 * Reads decimal numbers without allocation, to the nearest double.
 *
 * <p>A whole number up to 2^53 and a power of ten up to 10^22 are exact doubles, so one
 * multiplication or division of the two is rounded once, which is correct rounding. Longer numbers
 * go the long way.
 */
final class TextNumber {
    private static final double[] TENS = new double[23];
    private static final long EXACT = 1L << 53;
    private static final int MOST_DIGITS = 18;

    static {
        TENS[0] = 1;
        for (int i = 1; i < TENS.length; i++) {
            TENS[i] = TENS[i - 1] * 10; // exact up to 10^22
        }
    }

    /** The number last read. */
    double value;

    /** Reads all of a range; returns whether it is one finite number. */
    boolean read(byte[] text, int from, int to) {
        int at = from;
        boolean negative = at < to && text[at] == '-';
        if (at < to && (text[at] == '-' || text[at] == '+')) {
            at++;
        }
        long digits = 0;
        int count = 0;
        int seen = 0;
        int point = -1;
        for (; at < to; at++) {
            byte b = text[at];
            if (b >= '0' && b <= '9') {
                seen++;
                if (digits != 0 || b != '0') {
                    count++;
                }
                digits = count <= MOST_DIGITS ? 10 * digits + (b - '0') : digits;
            } else if (b == '.' && point < 0) {
                point = seen;
            } else {
                break;
            }
        }
        if (seen == 0) {
            return false;
        }
        int exponent = point < 0 ? 0 : point - seen;
        if (at < to) {
            int e = exponent(text, at, to);
            if (e == Integer.MIN_VALUE) {
                return false;
            }
            exponent += e;
        }
        if (count <= MOST_DIGITS && digits <= EXACT && Math.abs(exponent) < TENS.length) {
            double magnitude = exponent < 0 ? digits / TENS[-exponent] : digits * TENS[exponent];
            value = negative ? -magnitude : magnitude;
        } else {
            value =
                    Double.parseDouble(
                            new String(text, from, to - from, StandardCharsets.US_ASCII));
        }
        return Double.isFinite(value);
    }

    /** Returns what stands after e or E; the least int if it is no exponent. */
    private static int exponent(byte[] text, int from, int to) {
        int at = from + 1;
        if ((text[from] | 0x20) != 'e' || at == to) {
            return Integer.MIN_VALUE;
        }
        boolean negative = text[at] == '-';
        if (negative || text[at] == '+') {
            at++;
        }
        if (at == to || to - at > 3) {
            return Integer.MIN_VALUE;
        }
        int e = 0;
        for (; at < to; at++) {
            if (!(text[at] >= '0' && text[at] <= '9')) {
                return Integer.MIN_VALUE;
            }
            e = 10 * e + (text[at] - '0');
        }
        return negative ? -e : e;
    }
}
