package tickover.console.model;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.OptionalDouble;

/** Numbers as people type and read them. */
public final class Numbers {
    private static final int DIGITS = 6;

    private Numbers() {}

    /**
     * Reads a number; a comma counts as a decimal point.
     *
     * @param text as typed
     * @return empty if it is no finite number
     */
    public static OptionalDouble read(String text) {
        try {
            double value = Double.parseDouble(text.trim().replace(',', '.'));
            return Double.isFinite(value) ? OptionalDouble.of(value) : OptionalDouble.empty();
        } catch (NumberFormatException e) {
            return OptionalDouble.empty();
        }
    }

    /**
     * Writes a number without needless digits.
     *
     * @param value the number
     * @return at most six decimals
     */
    public static String text(double value) {
        return trimmed(value, DIGITS);
    }

    /** Writes a number with at most so many decimals. */
    static String trimmed(double value, int decimals) {
        BigDecimal rounded =
                BigDecimal.valueOf(value)
                        .setScale(decimals, RoundingMode.HALF_EVEN)
                        .stripTrailingZeros();
        return rounded.signum() == 0 ? "0" : rounded.toPlainString();
    }

    /** Writes a number with a fixed number of decimals. */
    static String text(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    /** Writes a measured number with three digits that count. */
    static String three(double value) {
        double size = Math.abs(value);
        int decimals = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : size >= 0.1 ? 3 : 4;
        return text(value, decimals);
    }
}
