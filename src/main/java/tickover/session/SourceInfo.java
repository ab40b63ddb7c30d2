package tickover.session;

import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.Objects;
import tickover.wire.TextDecoder;
import tickover.wire.TextUnit;

/**
 * What a device on a line is, as it stands in a recording before the device's first byte.
 *
 * @param role what it is there for
 * @param language what it speaks
 * @param port what a person calls the line
 * @param baud speed of the line, bits a second; 0 where there is none
 * @param deviceKey tells this device from others over re-plugging; may be empty
 * @param header columns of a plain-text probe, if they were given rather than read; may be empty
 * @param unit what a plain-text probe's numbers stand for, if its header does not say
 * @param countMps2 m/s² per count where the unit is counts; 0 if not known
 */
public record SourceInfo(
        Role role,
        Language language,
        String port,
        int baud,
        String deviceKey,
        String header,
        TextUnit unit,
        double countMps2) {
    /** What a device is there for. */
    public enum Role {
        /** Acceleration, and perhaps tach edges. */
        PROBE,
        /** Tach edges from a board of its own. */
        TACH,
        /** Engine speed from the diagnostic socket. */
        ADAPTER
    }

    /** What a device speaks. */
    public enum Language {
        /** Frames of the probe protocol. */
        FRAMES,
        /** Lines of numbers. */
        TEXT,
        /** Text commands and a prompt. */
        COMMANDS
    }

    public SourceInfo {
        Objects.requireNonNull(role, "role");
        Objects.requireNonNull(language, "language");
        Objects.requireNonNull(port, "port");
        Objects.requireNonNull(deviceKey, "deviceKey");
        Objects.requireNonNull(header, "header");
        Objects.requireNonNull(unit, "unit");
        if (!(baud >= 0 && countMps2 >= 0 && Double.isFinite(countMps2))) {
            throw new IllegalArgumentException(
                    "baud=" + baud + ", countMps2=" + countMps2 + ", need >= 0");
        }
        if (!header.isEmpty()) {
            // Refuses what no decoder could read later.
            Objects.requireNonNull(TextDecoder.withLayout(header));
        }
    }

    /**
     * A device without anything to say of text.
     *
     * @param role what it is there for
     * @param language what it speaks
     * @param port what a person calls the line
     * @param baud speed of the line, bits a second
     * @param deviceKey tells it from others; may be empty
     * @return the description
     */
    public static SourceInfo of(
            Role role, Language language, String port, int baud, String deviceKey) {
        return new SourceInfo(role, language, port, baud, deviceKey, "", TextUnit.UNKNOWN, 0);
    }

    /**
     * Says how a plain-text probe's lines are to be read.
     *
     * @param columns header line; empty to take the probe's own
     * @param value what the numbers stand for
     * @param perCountMps2 m/s² per count where they are counts
     * @return a changed copy
     */
    public SourceInfo withText(String columns, TextUnit value, double perCountMps2) {
        return new SourceInfo(role, language, port, baud, deviceKey, columns, value, perCountMps2);
    }

    /** The bytes that stand in a recording. */
    byte[] json() {
        JsonObject o = new JsonObject();
        o.addProperty("role", word(role));
        o.addProperty("language", word(language));
        o.addProperty("port", port);
        o.addProperty("baud", baud);
        o.addProperty("device", deviceKey);
        if (!header.isEmpty()) {
            o.addProperty("header", header);
        }
        if (unit != TextUnit.UNKNOWN) {
            o.addProperty("unit", word(unit));
            o.addProperty("countMps2", countMps2);
        }
        return o.toString().getBytes(StandardCharsets.UTF_8);
    }

    /**
     * Reads what stands in a recording.
     *
     * @throws JsonParseException if it is not what {@link #json} writes
     */
    static SourceInfo parse(byte[] json) {
        try {
            JsonObject o =
                    JsonParser.parseString(new String(json, StandardCharsets.UTF_8))
                            .getAsJsonObject();
            TextUnit unit = o.has("unit") ? named(TextUnit.class, o, "unit") : TextUnit.UNKNOWN;
            return new SourceInfo(
                    named(Role.class, o, "role"),
                    named(Language.class, o, "language"),
                    o.get("port").getAsString(),
                    o.get("baud").getAsInt(),
                    o.get("device").getAsString(),
                    o.has("header") ? o.get("header").getAsString() : "",
                    unit,
                    o.has("countMps2") ? o.get("countMps2").getAsDouble() : 0);
        } catch (IllegalStateException
                | IllegalArgumentException
                | UnsupportedOperationException
                | ClassCastException
                | NullPointerException e) {
            throw new JsonParseException("not a description of a device", e);
        }
    }

    private static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static <E extends Enum<E>> E named(Class<E> type, JsonObject o, String key) {
        return Enum.valueOf(
                type, o.get(key).getAsString().toUpperCase(Locale.ROOT).replace('-', '_'));
    }
}
