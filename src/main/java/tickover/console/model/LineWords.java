package tickover.console.model;

import java.util.Locale;
import tickover.drive.LineKind;

/** Says what makes a line, in a mechanic's words. */
final class LineWords {
    private LineWords() {}

    /**
     * Names a line of a part.
     *
     * @param kind such as {@code turn}, {@code 2xturn}, {@code cage} or the name of a pass line
     */
    static String of(String kind) {
        int x = kind.indexOf('x');
        boolean multiple = x > 0 && kind.substring(0, x).chars().allMatch(Character::isDigit);
        if (multiple) {
            return kind.substring(0, x) + " × " + of(kind.substring(x + 1));
        }
        return switch (kind) {
            case LineKind.TURN -> "its turn";
            case LineKind.BELT -> "the belt's turn";
            case LineKind.BEARING_OUTER_RING -> "bearing, outer ring";
            case LineKind.BEARING_INNER_RING -> "bearing, inner ring";
            case LineKind.ROLLING_ELEMENT -> "bearing, ball";
            case LineKind.CAGE -> "bearing, cage";
            case LineKind.CYCLE -> "working cycle";
            case LineKind.FIRING -> "firing";
            default -> kind;
        };
    }

    /** The same, short enough for a label on the waterfall. */
    static String brief(String kind) {
        return of(kind).replace("bearing, ", "").replace("its turn", "turn");
    }

    static String number(double value) {
        return String.format(Locale.ROOT, value >= 10 ? "%.1f" : "%.2f", value);
    }
}
