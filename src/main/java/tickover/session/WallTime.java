package tickover.session;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Objects;
import java.util.Optional;

/**
 * The time of day, as a recording notes it beside its own clock, with the offset of the place where
 * it is made: the visit's date is that of its own clocks on the wall, wherever it is imported.
 *
 * @param utc the moment
 * @param offset what clocks on the wall show is so far from it
 * @param offsetKnown false if the recording does not say; it is taken to be 0 then
 */
record WallTime(Instant utc, ZoneOffset offset, boolean offsetKnown) {
    WallTime {
        Objects.requireNonNull(utc, "utc");
        Objects.requireNonNull(offset, "offset");
    }

    static WallTime of(Clock clock) {
        Instant now = clock.instant();
        return new WallTime(now, clock.getZone().getRules().getOffset(now), true);
    }

    /** The bytes that stand in a recording. */
    byte[] json() {
        JsonObject o = new JsonObject();
        o.addProperty("utc", utc.toString());
        if (offsetKnown) {
            o.addProperty("offset", offset.getId());
        }
        return o.toString().getBytes(StandardCharsets.UTF_8);
    }

    /** Reads what stands in a recording; empty if it says no time. */
    static Optional<WallTime> parse(byte[] json) {
        try {
            JsonObject o =
                    JsonParser.parseString(new String(json, StandardCharsets.UTF_8))
                            .getAsJsonObject();
            Instant utc = Instant.parse(o.get("utc").getAsString());
            JsonElement offset = o.get("offset");
            return Optional.of(
                    new WallTime(
                            utc,
                            offset == null ? ZoneOffset.UTC : ZoneOffset.of(offset.getAsString()),
                            offset != null));
        } catch (IllegalStateException
                | UnsupportedOperationException
                | DateTimeException
                | JsonParseException
                | NullPointerException e) {
            return Optional.empty();
        }
    }
}
