package tickover.session;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import java.util.Locale;
import java.util.Objects;
import tickover.diagnose.CaptureLabel;
import tickover.diagnose.Mount;
import tickover.diagnose.Regime;
import tickover.drive.Condition;

/**
 * What is to be captured: where, how and under which load.
 *
 * @param point as in a {@link CaptureLabel}
 * @param axis word for the direction; may be empty
 * @param mount how the probe is held
 * @param regime what the engine speed does
 * @param condition what the drive has to carry
 */
public record PlannedCapture(
        String point, String axis, Mount mount, Regime regime, Condition condition) {
    /** What a stretch is taken to be of, where nobody said: held by hand at idle. */
    static final PlannedCapture UNNAMED =
            new PlannedCapture("unnamed", "", Mount.HAND, Regime.IDLE, Condition.UNLOADED);

    public PlannedCapture {
        Objects.requireNonNull(point, "point");
        Objects.requireNonNull(axis, "axis");
        Objects.requireNonNull(mount, "mount");
        Objects.requireNonNull(regime, "regime");
        Objects.requireNonNull(condition, "condition");
        if ((point + axis).chars().anyMatch(Character::isISOControl)) {
            throw new IllegalArgumentException(
                    "point=" + point + ", axis=" + axis + ", need one line");
        }
        if (point.isBlank()) {
            throw new IllegalArgumentException("point is empty, need where the probe is put");
        }
    }

    /**
     * Gives the capture a name within its visit.
     *
     * @param id unique within the visit
     * @return the label
     */
    public CaptureLabel labelled(String id) {
        return new CaptureLabel(id, point, axis, mount, regime, condition);
    }

    /** What stands in a recording; the words are those of visit folders. */
    JsonObject json() {
        JsonObject o = new JsonObject();
        o.addProperty("point", point);
        o.addProperty("axis", axis);
        o.addProperty("mount", mount.word());
        o.addProperty("regime", regime.word());
        JsonObject c = new JsonObject();
        c.addProperty("aircon", condition.aircon());
        c.addProperty("gear", condition.driveGear() ? "drive" : "neutral");
        c.addProperty("headlights", condition.headlights());
        c.addProperty("steering", condition.steering());
        c.addProperty("belt", condition.beltOn() ? "on" : "off");
        condition.injectorOff().ifPresent(n -> c.addProperty("injector_off", n));
        o.add("condition", c);
        return o;
    }

    /**
     * Reads what stands in a recording.
     *
     * @throws JsonParseException if it is not what {@link #json} writes
     */
    static PlannedCapture parse(JsonObject o) {
        try {
            JsonObject c = o.getAsJsonObject("condition");
            Condition condition =
                    Condition.UNLOADED
                            .withAircon(c.get("aircon").getAsBoolean())
                            .withDriveGear(c.get("gear").getAsString().equals("drive"))
                            .withHeadlights(c.get("headlights").getAsBoolean())
                            .withSteering(c.get("steering").getAsBoolean())
                            .withBeltOn(c.get("belt").getAsString().equals("on"));
            JsonElement injector = c.get("injector_off");
            if (injector != null) {
                condition = condition.withInjectorOff(injector.getAsInt());
            }
            return new PlannedCapture(
                    o.get("point").getAsString(),
                    o.get("axis").getAsString(),
                    Mount.valueOf(o.get("mount").getAsString().toUpperCase(Locale.ROOT)),
                    Regime.valueOf(o.get("regime").getAsString().toUpperCase(Locale.ROOT)),
                    condition);
        } catch (IllegalStateException
                | IllegalArgumentException
                | UnsupportedOperationException
                | ClassCastException
                | NullPointerException e) {
            throw new JsonParseException("not a description of a capture", e);
        }
    }
}
