package tickover.cli;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;
import tickover.drive.BearingGeometry;
import tickover.drive.Ring;

/**
 * A bearing as {@code --bearing} describes it.
 *
 * @param geometry its internals
 * @param turning the ring that turns
 * @param turningSaid whether it was said, not taken for granted
 */
record BearingOption(BearingGeometry geometry, Ring turning, boolean turningSaid) {
    private static final Set<String> KEYS = Set.of("balls", "ball", "pitch", "angle", "rotating");
    private static final String FORM = "balls=9,ball=7.94,pitch=39.04[,angle=0][,rotating=inner]";

    /** Reads it from the command line. */
    static final class Converter implements ITypeConverter<BearingOption> {
        @Override
        public BearingOption convert(String text) {
            Map<String, String> values = values(text);
            for (String key : List.of("balls", "ball", "pitch")) {
                if (!values.containsKey(key)) {
                    throw wrong("'" + text + "' has no " + key + "; the form is " + FORM);
                }
            }
            try {
                return new BearingOption(
                        new BearingGeometry(
                                wholeNumber(values.get("balls")),
                                number("ball", values.get("ball")),
                                number("pitch", values.get("pitch")),
                                number("angle", values.getOrDefault("angle", "0"))),
                        ring(values.getOrDefault("rotating", "inner")),
                        values.containsKey("rotating"));
            } catch (IllegalArgumentException e) {
                throw wrong("'" + text + "': " + e.getMessage());
            }
        }

        private static Map<String, String> values(String text) {
            Map<String, String> values = new LinkedHashMap<>();
            for (String part : text.split(",", -1)) {
                int at = part.indexOf('=');
                String key = at < 0 ? part.strip() : part.substring(0, at).strip();
                if (at < 0 || !KEYS.contains(key)) {
                    throw wrong("'" + part + "' is not understood; the form is " + FORM);
                }
                if (values.put(key, part.substring(at + 1).strip()) != null) {
                    throw wrong(key + " is given twice");
                }
            }
            return values;
        }

        private static int wholeNumber(String value) {
            try {
                return Integer.parseInt(value);
            } catch (NumberFormatException e) {
                throw wrong("balls=" + value + ", need a whole number");
            }
        }

        private static double number(String key, String value) {
            try {
                return Double.parseDouble(value);
            } catch (NumberFormatException e) {
                throw wrong(key + "=" + value + ", need a number");
            }
        }

        private static Ring ring(String value) {
            for (Ring ring : Ring.values()) {
                if (ring.word().equals(value)) {
                    return ring;
                }
            }
            throw wrong("rotating=" + value + ", need inner or outer");
        }

        private static TypeConversionException wrong(String sentence) {
            return new TypeConversionException(sentence);
        }
    }
}
