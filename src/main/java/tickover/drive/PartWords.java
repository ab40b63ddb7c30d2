package tickover.drive;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * Says the names of parts and points as a person would: {@code water-pump} is "the water pump",
 * {@code injector-2} "injector 2", {@code belt:main} "the main belt", {@code valve-cover} "the
 * valve cover".
 *
 * <p>Files, tables of the log and JSON keys hold names as the vehicle's file writes them; every
 * sentence, table and picture that a person reads goes through here.
 */
public final class PartWords {
    private static final String BELT = DriveBelt.partName("");

    /** A hyphen or underscore that joins two words; a minus or a lone dash is left alone. */
    private static final Pattern JOINT =
            Pattern.compile("(?<=[\\p{L}\\p{N}])[-_](?=[\\p{L}\\p{N}])");

    private static final Pattern BLANKS = Pattern.compile("\\s+");

    /** Two words written as one would be read so: "the main belt" of a belt called "main belt". */
    private static final Pattern SAYS_BELT = Pattern.compile("(?i)(^|.* )belt( .*|$)");

    private static final Pattern HAS_ARTICLE = Pattern.compile("(?i)(the|a|an|my|our) .*");

    /**
     * Ends a name that is written from the right, so that what follows is not drawn into it: two
     * such names with an arrow between them would change places.
     */
    private static final String BACK_TO_LEFT = "\u200E";

    private PartWords() {}

    /**
     * Names a part or point where no article fits: in tables, on drawings, after a number.
     *
     * @param name a pulley's name, {@code belt:NAME}, {@code injector-N}, {@code valve-train}, a
     *     point, or free text
     * @return such as "water pump", "main belt" or "injector 2"
     */
    public static String plain(String name) {
        Objects.requireNonNull(name, "name");
        boolean belt = name.startsWith(BELT) && name.length() > BELT.length();
        String said = JOINT.matcher(belt ? name.substring(BELT.length()) : name).replaceAll(" ");
        String shown = isFromRight(said) ? said + BACK_TO_LEFT : said;
        return belt && !SAYS_BELT.matcher(said).matches()
                ? endsInDigit(said) ? "belt " + shown : shown + " belt"
                : shown;
    }

    /**
     * Names a part or point within a sentence.
     *
     * @param name as for {@link #plain}
     * @return such as "the water pump", "the main belt" or "injector 2"
     */
    public static String the(String name) {
        String said = plain(name);
        // "idler 2" and "injector 2" are names of their own; "the idler 2" nobody says.
        return said.isEmpty() || endsInDigit(said) || HAS_ARTICLE.matcher(said).matches()
                ? said
                : "the " + said;
    }

    /**
     * Names a part or point at the start of a sentence.
     *
     * @param name as for {@link #plain}
     * @return such as "The water pump" or "Injector 2"
     */
    public static String start(String name) {
        String said = the(name);
        return said.isEmpty()
                ? said
                : said.substring(0, said.offsetByCodePoints(0, 1)).toUpperCase(Locale.ROOT)
                        + said.substring(said.offsetByCodePoints(0, 1));
    }

    /**
     * Names several within a sentence.
     *
     * @param names at least one
     * @param joint "and" or "or"
     * @return such as "the idler, the water pump or injector 2"
     */
    public static String list(Collection<String> names, String joint) {
        List<String> said = names.stream().map(PartWords::the).toList();
        int last = said.size() - 1;
        if (last < 1) {
            return String.join("", said);
        }
        return String.join(", ", said.subList(0, last)) + " " + joint + " " + said.get(last);
    }

    /**
     * Finds which name is meant, by itself or as it is said: "water pump", "the water pump" and
     * {@code water-pump} are one part.
     *
     * @param said what was typed
     * @param known names that there are
     * @return the name as it is kept; empty if none or more than one could be meant
     */
    public static Optional<String> find(String said, Collection<String> known) {
        if (known.contains(said)) {
            return Optional.of(said);
        }
        String folded = folded(said);
        List<String> alike =
                known.stream()
                        .distinct()
                        .filter(
                                k ->
                                        folded(plain(k)).equals(folded)
                                                || folded(the(k)).equals(folded))
                        .toList();
        return alike.size() == 1 ? Optional.of(alike.get(0)) : Optional.empty();
    }

    private static String folded(String text) {
        return BLANKS.matcher(plain(text.strip())).replaceAll(" ").toLowerCase(Locale.ROOT);
    }

    private static boolean endsInDigit(String said) {
        String bare = said.endsWith(BACK_TO_LEFT) ? said.substring(0, said.length() - 1) : said;
        return !bare.isEmpty() && Character.isDigit(bare.charAt(bare.length() - 1));
    }

    private static boolean isFromRight(String said) {
        return said.codePoints()
                .map(Character::getDirectionality)
                .anyMatch(
                        d ->
                                d == Character.DIRECTIONALITY_RIGHT_TO_LEFT
                                        || d == Character.DIRECTIONALITY_RIGHT_TO_LEFT_ARABIC);
    }
}
