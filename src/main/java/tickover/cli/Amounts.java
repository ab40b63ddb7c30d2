package tickover.cli;

import java.util.Locale;

/** Says how many things there are and how much room they take. */
final class Amounts {
    private static final String[] UNITS = {"bytes", "kB", "MB", "GB", "TB"};
    private static final double STEP = 1000;

    private Amounts() {}

    /** Such as 1.5 GB; whole bytes below a thousand. */
    static String bytes(long bytes) {
        double value = bytes;
        int unit = 0;
        // From 999.95 on the rounded figure would have four digits.
        while (value >= STEP - 0.05 && unit < UNITS.length - 1) {
            value /= STEP;
            unit++;
        }
        return unit == 0
                ? bytes + (bytes == 1 ? " byte" : " bytes")
                : String.format(Locale.ROOT, "%.1f %s", value, UNITS[unit]);
    }

    /** Such as 1 file or 2 files. */
    static String count(int count, String thing) {
        return count + " " + thing + (count == 1 ? "" : "s");
    }
}
