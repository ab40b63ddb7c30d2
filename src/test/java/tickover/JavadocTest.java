package tickover;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Reads the sources: everything public is described, no file grows past what one can read. */
class JavadocTest {
    private static final Path SOURCES = Path.of("src", "main", "java");
    private static final int LONGEST_FILE_LINES = 400;

    /** A public declaration at the start of a line: type, constructor, method or field. */
    private static final Pattern PUBLIC =
            Pattern.compile("^( *)public (?!static void main)([^=;{(]*[({=;].*|[^=;{(]*)$");

    @Test
    void everythingPublicIsDescribed() {
        List<String> bare = new ArrayList<>();
        for (Path file : sources()) {
            List<String> lines = lines(file);
            for (int i = 0; i < lines.size(); i++) {
                Matcher m = PUBLIC.matcher(lines.get(i));
                if (m.matches()
                        && !isCompactConstructor(file, lines.get(i))
                        && !described(lines, i)) {
                    bare.add(file + ":" + (i + 1) + " " + lines.get(i).strip());
                }
            }
        }
        assertEquals(List.of(), bare);
    }

    @Test
    void findsWhatIsNotDescribed() {
        List<String> code = List.of("    }", "", "    public int bare() {");
        assertTrue(PUBLIC.matcher(code.get(2)).matches());
        assertEquals(false, described(code, 2));
    }

    @Test
    void everyPackageSaysWhatItIs() {
        List<Path> silent = new ArrayList<>();
        for (Path file : sources()) {
            Path folder = file.getParent();
            if (!folder.equals(SOURCES.resolve("tickover"))
                    && !Files.exists(folder.resolve("package-info.java"))) {
                silent.add(folder);
            }
        }
        assertEquals(List.of(), silent);
    }

    @Test
    void noFileIsTooLongToRead() {
        List<String> tooLong = new ArrayList<>();
        for (Path file : sources()) {
            int count = lines(file).size();
            if (count > LONGEST_FILE_LINES) {
                tooLong.add(file + " has " + count + " lines");
            }
        }
        assertEquals(List.of(), tooLong);
    }

    private static boolean isCompactConstructor(Path file, String line) {
        String type = file.getFileName().toString().replace(".java", "");
        return line.strip().matches("public (" + type + "|[A-Z]\\w*) \\{");
    }

    /** A described declaration has a comment end or an override mark above its annotations. */
    private static boolean described(List<String> lines, int at) {
        for (int i = at - 1; i >= 0; i--) {
            String above = lines.get(i).strip();
            if (above.equals("@Override") || above.endsWith("*/")) {
                return true;
            }
            boolean annotation =
                    above.startsWith("@")
                            || above.startsWith("\"")
                            || above.endsWith(")")
                            || above.endsWith(",");
            if (!annotation) {
                return false;
            }
        }
        return false;
    }

    private static List<Path> sources() {
        try (Stream<Path> walk = Files.walk(SOURCES)) {
            return walk.filter(p -> p.toString().endsWith(".java")).sorted().toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> lines(Path file) {
        try {
            return Files.readAllLines(file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
