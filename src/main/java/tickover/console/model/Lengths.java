package tickover.console.model;

import java.util.OptionalDouble;
import tickover.console.model.Preferences.Units;

/** Lengths at the engine as the user wants to see and type them; inside they are mm. */
public final class Lengths {
    private static final double MM_PER_INCH = 25.4;
    private static final int INCH_DECIMALS = 3;

    private Lengths() {}

    /**
     * Returns the unit's sign.
     *
     * @param units what is shown
     * @return mm or in
     */
    public static String unit(Units units) {
        return switch (units) {
            case METRIC -> "mm";
            case IMPERIAL -> "in";
        };
    }

    /**
     * Turns a typed text in mm into what is shown.
     *
     * @param mmText as typed, mm
     * @param units what is shown
     * @return the same text if it is no number
     */
    public static String shown(String mmText, Units units) {
        OptionalDouble mm = Numbers.read(mmText);
        return units == Units.METRIC || mm.isEmpty()
                ? mmText
                : Numbers.trimmed(mm.getAsDouble() / MM_PER_INCH, INCH_DECIMALS);
    }

    /**
     * Turns what was typed into a text in mm.
     *
     * @param text as typed
     * @param units what is shown
     * @return the same text if it is no number
     */
    public static String typed(String text, Units units) {
        OptionalDouble value = Numbers.read(text);
        return units == Units.METRIC || value.isEmpty()
                ? text
                : Numbers.text(value.getAsDouble() * MM_PER_INCH);
    }
}
