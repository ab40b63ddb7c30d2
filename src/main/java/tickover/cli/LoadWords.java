package tickover.cli;

import java.util.List;
import tickover.drive.Condition;

/** The words by which the command line says what the drive has to carry. */
final class LoadWords {
    /** For help texts. */
    static final String KNOWN =
            "aircon, drive (in gear), headlights, steering (full lock), belt-off, injector-off-N";

    private static final String INJECTOR = "injector-off-";

    private LoadWords() {}

    /**
     * Reads words.
     *
     * @param words perhaps none: no load
     * @return the condition
     */
    static Condition condition(List<String> words) {
        Condition c = Condition.UNLOADED;
        for (String word : words) {
            c =
                    switch (word) {
                        case "aircon" -> c.withAircon(true);
                        case "drive" -> c.withDriveGear(true);
                        case "headlights" -> c.withHeadlights(true);
                        case "steering" -> c.withSteering(true);
                        case "belt-off" -> c.withBeltOn(false);
                        default -> c.withInjectorOff(injector(word));
                    };
        }
        return c;
    }

    private static int injector(String word) {
        if (word.startsWith(INJECTOR)) {
            String number = word.substring(INJECTOR.length());
            if (number.matches("[1-9][0-9]?")) {
                return Integer.parseInt(number);
            }
        }
        throw CliException.badInput("--load: '" + word + "' is not known; write " + KNOWN);
    }
}
