package tickover.console.model;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tickover.drive.BearingGeometry;
import tickover.drive.PulleyBearing;
import tickover.drive.Ring;

/**
 * A pulley's bearings in one line: what is printed on the shield ({@code 6203}), the internals
 * ({@code 8 x 6.75 / 28.5}: balls, their diameter, the diameter of their circle, mm), or {@code ?}
 * for a bearing of which nothing is known.
 */
public final class BearingWords {
    /** What to type, for the screen. */
    public static final String HELP =
            "As printed (6203), or balls x ball diameter / pitch diameter in mm (8 x 6.75 / 28.5),"
                    + " or ? if unknown; several with commas.";

    private static final Pattern INTERNALS =
            Pattern.compile(
                    "(?:(\\S+)\\s+)?(\\d+)\\s*[x×*]\\s*([\\d.]+)\\s*/\\s*([\\d.]+)"
                            + "(?:\\s*@\\s*([\\d.]+))?");

    private BearingWords() {}

    static String of(PulleyBearing bearing) {
        if (bearing.geometry().isEmpty()) {
            return bearing.designation().orElse("?");
        }
        BearingGeometry g = bearing.geometry().get();
        String internals =
                g.balls()
                        + " x "
                        + Numbers.text(g.ballDiameterMm())
                        + " / "
                        + Numbers.text(g.pitchDiameterMm());
        String angle = g.contactAngleDeg() == 0 ? "" : " @ " + Numbers.text(g.contactAngleDeg());
        return bearing.designation().map(d -> d + " ").orElse("") + internals + angle;
    }

    /** Reads a line; adds a sentence for everything that cannot be read. */
    static List<PulleyBearing> read(String text, Ring ring, List<String> complaints) {
        List<PulleyBearing> bearings = new ArrayList<>();
        for (String word : text.split("[,;]", -1)) {
            String w = word.strip();
            if (w.isEmpty()) {
                continue;
            }
            Matcher m = INTERNALS.matcher(w);
            if (w.equals("?")) {
                bearings.add(PulleyBearing.unknown(ring));
            } else if (m.matches()) {
                internals(m, ring, bearings, complaints);
            } else if (w.contains("/") && w.matches(".*\\d\\s*[x×*].*")) {
                complaints.add("the bearing \"" + w + "\" cannot be read; " + lower(HELP));
            } else {
                bearings.add(PulleyBearing.ofDesignation(w, ring));
            }
        }
        return bearings;
    }

    private static void internals(
            Matcher m, Ring ring, List<PulleyBearing> bearings, List<String> complaints) {
        OptionalDouble ball = Numbers.read(m.group(3));
        OptionalDouble pitch = Numbers.read(m.group(4));
        OptionalDouble angle = m.group(5) == null ? OptionalDouble.of(0) : Numbers.read(m.group(5));
        try {
            BearingGeometry geometry =
                    new BearingGeometry(
                            Integer.parseInt(m.group(2)),
                            ball.orElse(0),
                            pitch.orElse(0),
                            angle.orElse(90));
            bearings.add(
                    m.group(1) == null
                            ? PulleyBearing.ofGeometry(geometry, ring)
                            : PulleyBearing.of(m.group(1), geometry, ring));
        } catch (IllegalArgumentException e) {
            complaints.add(
                    "the bearing \""
                            + m.group()
                            + "\" cannot be: it needs 3 balls or more, and balls smaller than their"
                            + " circle");
        }
    }

    private static String lower(String sentence) {
        return Character.toLowerCase(sentence.charAt(0)) + sentence.substring(1);
    }
}
