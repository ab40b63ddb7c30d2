package tickover.session;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import tickover.wire.TextUnit;

/**
 * What was once said of plain-text probes, remembered for each device in {@code text-probes.json}
 * in the data folder: what their numbers stand for, and their columns if they send no header.
 */
final class TextSettings {
    private static final Gson PRETTY =
            new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create();

    private final Path file;
    private final JsonObject devices;

    private TextSettings(Path file, JsonObject devices) {
        this.file = file;
        this.devices = devices;
    }

    static TextSettings of(Path dataFolder) {
        Path file = dataFolder.resolve("text-probes.json");
        try {
            return new TextSettings(
                    file, JsonParser.parseString(Files.readString(file)).getAsJsonObject());
        } catch (NoSuchFileException e) {
            return new TextSettings(file, new JsonObject());
        } catch (IOException | JsonParseException | IllegalStateException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.OUTSIDE,
                    file + " cannot be read; remove it, and say --units once more",
                    e);
        }
    }

    /**
     * Adds what was said now, else what was said before; what is new is remembered. A header that
     * the board sends itself counts as said: many send it when they are switched on and then never
     * again.
     *
     * @param seen the header that the board has just sent; may be empty
     */
    SourceInfo apply(SourceInfo info, LineChoice.Wish wish, String seen) {
        String key = info.deviceKey().isEmpty() ? info.port() : info.deviceKey();
        JsonObject before = devices.has(key) ? devices.getAsJsonObject(key) : new JsonObject();
        String told = wish.columns().isEmpty() ? seen : wish.columns();
        String columns = told.isEmpty() ? text(before, "columns") : told;
        String units = wish.units().isEmpty() ? text(before, "units") : wish.units();
        double countMps2 =
                wish.countMps2() > 0
                        ? wish.countMps2()
                        : before.has("countMps2") ? before.get("countMps2").getAsDouble() : 0;
        TextUnit unit = units.isEmpty() ? TextUnit.UNKNOWN : LineChoice.unit(units);
        if (unit == TextUnit.COUNTS && !(countMps2 > 0)) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.BAD_INPUT,
                    "--units counts: say how much a count is with --count, in m/s²",
                    null);
        }
        SourceInfo whole;
        try {
            whole = info.withText(columns, unit, countMps2);
        } catch (IllegalArgumentException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.BAD_INPUT,
                    "--columns or --count: " + e.getMessage(),
                    e);
        }
        if (!columns.equals(text(before, "columns"))
                || !wish.units().isEmpty()
                || wish.countMps2() > 0) {
            JsonObject now = new JsonObject();
            now.addProperty("columns", columns);
            now.addProperty("units", units);
            now.addProperty("countMps2", countMps2);
            devices.add(key, now);
            save();
        }
        return whole;
    }

    private static String text(JsonObject o, String key) {
        return o.has(key) ? o.get(key).getAsString() : "";
    }

    private void save() {
        try {
            Files.createDirectories(file.getParent());
            Path part = file.resolveSibling("." + file.getFileName() + ".part");
            Files.writeString(part, PRETTY.toJson(devices));
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new AcquisitionException(
                    AcquisitionException.Kind.OUTSIDE,
                    file + " cannot be written: " + e.getMessage(),
                    e);
        }
    }
}
