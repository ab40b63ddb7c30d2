package tickover.store;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlParseError;
import org.tomlj.TomlParseResult;
import org.tomlj.TomlPosition;
import org.tomlj.TomlTable;
import org.tomlj.TomlVersion;

/**
 * One table of a TOML file while it is read. Knows where it stands, so that every complaint names
 * file, line and key, and refuses keys that nobody knows. Members of arrays are counted from 1.
 */
final class Keys {
    private static final int LIMIT_BYTES = 1 << 20;

    /** Nothing that a visit tells is larger in its unit. */
    private static final double LARGEST = 1e9;

    private final String file;
    private final String path;
    private final TomlTable table;
    private final TomlPosition position;

    private Keys(
            String file, String path, TomlTable table, TomlPosition position, Set<String> known) {
        this.file = file;
        this.path = path;
        this.table = table;
        this.position = position;
        for (String key : table.keySet()) {
            if (!known.contains(key)) {
                throw wrong(
                        key, "unknown key; known here: " + String.join(", ", new TreeSet<>(known)));
            }
        }
    }

    static Keys parse(Path path, Set<String> known) {
        String file = String.valueOf(path.getFileName());
        return parse(file, FolderText.read(file, path, LIMIT_BYTES), known);
    }

    /** Reads a text that stands for a file of the given name. */
    static Keys parse(String file, String text, Set<String> known) {
        TomlParseResult result;
        try {
            result = Toml.parse(text, TomlVersion.V1_0_0);
        } catch (StackOverflowError e) {
            throw new VisitFolderException(file, "is nested too deeply to be TOML of a visit", e);
        }
        if (result.hasErrors()) {
            TomlParseError first = result.errors().get(0);
            throw new VisitFolderException(
                    file
                            + " line "
                            + first.position().line()
                            + ", column "
                            + first.position().column(),
                    "is not TOML: " + first.getMessage());
        }
        return new Keys(file, "", result, TomlPosition.positionAt(1, 1), known);
    }

    /** A complaint about the table itself. */
    VisitFolderException wrong(String sentence) {
        return new VisitFolderException(
                file + (path.isEmpty() ? "" : " line " + position.line() + ": " + path), sentence);
    }

    /** A complaint about one key of it. */
    VisitFolderException wrong(String key, String sentence) {
        return wrong(key, table.inputPositionOf(List.of(key)), sentence);
    }

    /** A complaint about a member of a list, which stands where its key does. */
    private VisitFolderException wrongMember(String key, int index, String sentence) {
        return wrong(key + "[" + (index + 1) + "]", table.inputPositionOf(List.of(key)), sentence);
    }

    private VisitFolderException wrong(String key, TomlPosition at, String sentence) {
        return new VisitFolderException(
                file
                        + (at != null
                                ? " line " + at.line()
                                : path.isEmpty() ? "" : " line " + position.line())
                        + ": "
                        + full(key),
                sentence);
    }

    private String full(String key) {
        return Wording.oneLine(path.isEmpty() ? key : path + "." + key);
    }

    boolean has(String key) {
        return table.contains(List.of(key));
    }

    private <T> Optional<T> value(String key, Class<T> type, String need) {
        Object found = table.get(List.of(key));
        if (found == null) {
            return Optional.empty();
        }
        if (!type.isInstance(found)) {
            throw wrong(key, "is " + describe(found) + "; give " + need);
        }
        return Optional.of(type.cast(found));
    }

    private static String describe(Object found) {
        if (found instanceof String s) {
            return "the text " + Wording.quoted(s);
        }
        if (found instanceof TomlTable) {
            return "a table";
        }
        if (found instanceof TomlArray) {
            return "a list";
        }
        return Wording.quoted(found.toString());
    }

    VisitFolderException missing(String key, String need) {
        return wrong(key, "is missing; give " + need);
    }

    Optional<String> text(String key, String need) {
        return value(key, String.class, need);
    }

    /** A name: not blank, in one line. */
    Optional<String> name(String key, String need) {
        Optional<String> text = text(key, need);
        text.ifPresent(t -> requireName(key, t, need));
        return text;
    }

    private void requireName(String key, String text, String need) {
        if (text.isBlank()) {
            throw wrong(key, "is blank; give " + need);
        }
        if (Wording.hasControl(text)) {
            throw wrong(key, Wording.quoted(text) + " has a control character; give " + need);
        }
    }

    boolean flag(String key) {
        return value(key, Boolean.class, "true or false").orElse(false);
    }

    OptionalDouble number(String key, String need) {
        Object found = table.get(List.of(key));
        if (found == null) {
            return OptionalDouble.empty();
        }
        double number =
                found instanceof Long whole
                        ? whole.doubleValue()
                        : value(key, Double.class, need).orElseThrow();
        if (!(Math.abs(number) <= LARGEST)) {
            throw wrong(key, number + " is out of range; give " + need);
        }
        return OptionalDouble.of(number);
    }

    OptionalDouble numberAbove0(String key, String need) {
        OptionalDouble number = number(key, need);
        if (number.isPresent() && !(number.getAsDouble() > 0)) {
            throw wrong(
                    key, Wording.number(number.getAsDouble()) + " is not above 0; give " + need);
        }
        return number;
    }

    /** A number above 0 within wide limits, which catch a slip of the keyboard. */
    OptionalDouble numberAbove0(String key, double least, double most, String need) {
        OptionalDouble number = numberAbove0(key, need);
        requireBetween(key, number, least, most, need);
        return number;
    }

    void requireBetween(String key, OptionalDouble number, double least, double most, String need) {
        if (number.isPresent()
                && !(number.getAsDouble() >= least && number.getAsDouble() <= most)) {
            throw wrong(
                    key,
                    Wording.number(number.getAsDouble())
                            + " is not within "
                            + Wording.number(least)
                            + " to "
                            + Wording.number(most)
                            + "; give "
                            + need);
        }
    }

    OptionalInt whole(String key, int least, int most, String need) {
        Optional<Long> found = value(key, Long.class, need);
        if (found.isEmpty()) {
            return OptionalInt.empty();
        }
        if (!(found.get() >= least && found.get() <= most)) {
            throw wrong(key, found.get() + " is out of range; give " + need);
        }
        return OptionalInt.of(found.get().intValue());
    }

    /** One of a closed list of words. */
    String word(String key, List<String> words, String absent) {
        String need = "one of " + String.join(", ", words);
        String found = text(key, need).orElse(absent);
        if (!words.contains(found)) {
            throw wrong(key, Wording.quoted(found) + " is not known; give " + need);
        }
        return found;
    }

    /** A local date and time; of one with an offset the local part; of a date its midnight. */
    Optional<LocalDateTime> dateTime(String key, String need) {
        Object found = table.get(List.of(key));
        if (found instanceof OffsetDateTime withOffset) {
            return Optional.of(withOffset.toLocalDateTime());
        }
        if (found instanceof LocalDate day) {
            return Optional.of(day.atTime(LocalTime.MIDNIGHT));
        }
        return value(key, LocalDateTime.class, need);
    }

    List<String> names(String key, String need) {
        List<String> names = new ArrayList<>();
        for (Object o : list(key, need)) {
            if (!(o instanceof String s)) {
                throw wrongMember(key, names.size(), "is " + describe(o) + "; give " + need);
            }
            names.add(s);
        }
        return List.copyOf(names);
    }

    List<Integer> wholes(String key, String need) {
        List<Integer> wholes = new ArrayList<>();
        for (Object o : list(key, need)) {
            if (!(o instanceof Long n) || n.intValue() != n) {
                throw wrongMember(key, wholes.size(), "is " + describe(o) + "; give " + need);
            }
            wholes.add(n.intValue());
        }
        return List.copyOf(wholes);
    }

    private List<Object> list(String key, String need) {
        return value(key, TomlArray.class, need).map(TomlArray::toList).orElse(List.of());
    }

    Optional<Keys> table(String key, Set<String> known) {
        return value(key, TomlTable.class, "a table, [" + full(key) + "]")
                .map(t -> inner(full(key), t, table.inputPositionOf(List.of(key)), known));
    }

    List<Keys> tables(String key, Set<String> known) {
        String need = "a list of tables, each under [[" + full(key) + "]]";
        TomlArray array = value(key, TomlArray.class, need).orElse(null);
        List<Keys> tables = new ArrayList<>();
        for (int i = 0; array != null && i < array.size(); i++) {
            String member = full(key) + "[" + (i + 1) + "]";
            if (!(array.get(i) instanceof TomlTable t)) {
                throw wrongMember(key, i, "is " + describe(array.get(i)) + "; give " + need);
            }
            tables.add(inner(member, t, array.inputPositionOf(i), known));
        }
        return tables;
    }

    private Keys inner(String where, TomlTable inner, TomlPosition at, Set<String> known) {
        return new Keys(file, where, inner, at == null ? position : at, known);
    }
}
