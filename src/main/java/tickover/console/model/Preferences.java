package tickover.console.model;

import java.io.IOException;
import java.io.Reader;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Properties;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;

/**
 * How the user likes the console, kept in a small file beside the log. What the file says wrongly
 * counts as not said: a console must open whatever happened to its preferences.
 */
public final class Preferences {
    /** The file in the data folder. */
    public static final String FILE = "console.properties";

    /** How the console looks. */
    public enum Theme {
        /** Dark on white. */
        LIGHT("Light"),
        /** Light on near black. */
        DARK("Dark"),
        /** Black on white with thick lines, for sunlight. */
        SUNLIGHT("Sunlight");

        private final String title;

        Theme(String title) {
            this.title = title;
        }

        /**
         * Returns what it is called.
         *
         * @return one word
         */
        public String title() {
            return title;
        }
    }

    /** What lengths are shown in. */
    public enum Units {
        /** Millimetres. */
        METRIC("mm"),
        /** Inches. */
        IMPERIAL("inch");

        private final String title;

        Units(String title) {
            this.title = title;
        }

        /**
         * Returns what it is called.
         *
         * @return the units themselves
         */
        public String title() {
            return title;
        }
    }

    /**
     * Where the window was.
     *
     * @param x left edge, pixels
     * @param y upper edge, pixels
     * @param width pixels
     * @param height pixels
     */
    public record Place(double x, double y, double width, double height) {}

    private static final double SMALLEST_TEXT = 0.75;
    private static final double LARGEST_TEXT = 2;
    private static final double TEXT_STEP = 0.25;

    private final Path file;
    private final Properties kept = new Properties();
    private final ObjectProperty<Theme> theme;
    private final ObjectProperty<Units> units;
    private final ObjectProperty<Double> textScale;

    /**
     * Reads the preferences.
     *
     * @param dataDir folder of the log, which may not exist yet
     */
    public Preferences(Path dataDir) {
        this.file = dataDir.resolve(FILE);
        if (Files.isRegularFile(file)) {
            try (Reader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
                kept.load(in);
            } catch (IOException | IllegalArgumentException e) {
                kept.clear();
            }
        }
        this.theme = new SimpleObjectProperty<>(of(Theme.values(), "theme", Theme.LIGHT));
        this.units = new SimpleObjectProperty<>(of(Units.values(), "units", Units.METRIC));
        double scale = number("text_scale").orElse(1);
        this.textScale =
                new SimpleObjectProperty<>(Math.max(SMALLEST_TEXT, Math.min(LARGEST_TEXT, scale)));
    }

    private <T extends Enum<T>> T of(T[] values, String key, T otherwise) {
        String word = kept.getProperty(key, "");
        return Arrays.stream(values)
                .filter(v -> v.name().equalsIgnoreCase(word))
                .findFirst()
                .orElse(otherwise);
    }

    private OptionalDouble number(String key) {
        try {
            double value = Double.parseDouble(kept.getProperty(key, "").trim());
            return Double.isFinite(value) ? OptionalDouble.of(value) : OptionalDouble.empty();
        } catch (NumberFormatException e) {
            return OptionalDouble.empty();
        }
    }

    /**
     * Returns how the console looks.
     *
     * @return observable, never null
     */
    public ObjectProperty<Theme> theme() {
        return theme;
    }

    /**
     * Returns the units shown.
     *
     * @return observable, never null
     */
    public ObjectProperty<Units> units() {
        return units;
    }

    /**
     * Returns the size of the text relative to the usual.
     *
     * @return observable, 0.75 to 2
     */
    public ObjectProperty<Double> textScale() {
        return textScale;
    }

    /** Makes the text a step larger, up to double size. */
    public void largerText() {
        textScale.set(Math.min(LARGEST_TEXT, textScale.get() + TEXT_STEP));
    }

    /** Makes the text a step smaller. */
    public void smallerText() {
        textScale.set(Math.max(SMALLEST_TEXT, textScale.get() - TEXT_STEP));
    }

    /** Takes the next look. */
    public void nextTheme() {
        theme.set(
                switch (theme.get()) {
                    case LIGHT -> Theme.DARK;
                    case DARK -> Theme.SUNLIGHT;
                    case SUNLIGHT -> Theme.LIGHT;
                });
    }

    /**
     * Returns where the window was when it was closed.
     *
     * @return empty if that is not known
     */
    public Optional<Place> place() {
        OptionalDouble x = number("window_x");
        OptionalDouble y = number("window_y");
        OptionalDouble width = number("window_width");
        OptionalDouble height = number("window_height");
        boolean whole = x.isPresent() && y.isPresent() && width.isPresent() && height.isPresent();
        return whole && width.getAsDouble() > 0 && height.getAsDouble() > 0
                ? Optional.of(
                        new Place(
                                x.getAsDouble(),
                                y.getAsDouble(),
                                width.getAsDouble(),
                                height.getAsDouble()))
                : Optional.empty();
    }

    /**
     * Writes the preferences down.
     *
     * @param place where the window is
     * @throws IOException if the disk refuses; nothing is half written then
     */
    public void save(Place place) throws IOException {
        Objects.requireNonNull(place, "place");
        kept.setProperty("theme", theme.get().name().toLowerCase(Locale.ROOT));
        kept.setProperty("units", units.get().name().toLowerCase(Locale.ROOT));
        kept.setProperty("text_scale", Double.toString(textScale.get()));
        kept.setProperty("window_x", Double.toString(place.x()));
        kept.setProperty("window_y", Double.toString(place.y()));
        kept.setProperty("window_width", Double.toString(place.width()));
        kept.setProperty("window_height", Double.toString(place.height()));
        Files.createDirectories(file.getParent());
        Path part = file.resolveSibling(FILE + ".part");
        try (Writer out = Files.newBufferedWriter(part, StandardCharsets.UTF_8)) {
            kept.store(out, "How the console looks; may be edited or deleted");
        }
        Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }
}
