package tickover.cli;

import com.google.gson.JsonObject;
import java.util.Locale;
import tickover.session.LiveReading;
import tickover.session.RecordingContent;

/** What a recording holds, as a JSON document. */
final class RecordingJson {
    private RecordingJson() {}

    static JsonObject of(RecordingContent content) {
        JsonObject o = new JsonObject();
        o.addProperty("file", content.file().toString());
        o.addProperty("id", content.id().toString());
        o.addProperty("startedAt", content.startedAt().toString());
        Json.put(o, "durationS", content.durationS());
        o.addProperty("closed", content.closed());
        o.addProperty("damagedBytes", content.damagedBytes());
        o.add("remarks", Json.words(content.remarks()));
        o.add("sources", Json.array(content.sources(), RecordingJson::source));
        o.add("captures", Json.array(content.captures(), RecordingJson::capture));
        o.add(
                "gaps",
                Json.array(
                        content.gaps(),
                        gap -> {
                            JsonObject g = new JsonObject();
                            g.addProperty("source", gap.source());
                            g.addProperty("segment", gap.segment());
                            Json.put(g, "atS", gap.atS());
                            g.addProperty("cause", gap.cause());
                            g.addProperty("firstMissing", gap.firstMissing());
                            gap.missing().ifPresent(n -> g.addProperty("missingSamples", n));
                            return g;
                        }));
        return o;
    }

    private static JsonObject source(RecordingContent.Source s) {
        JsonObject o = new JsonObject();
        o.addProperty("role", s.info().role().name().toLowerCase(Locale.ROOT));
        o.addProperty("port", s.info().port());
        o.addProperty("baud", s.info().baud());
        o.addProperty("name", s.name());
        o.addProperty("bytes", s.bytes());
        o.addProperty("framedBytes", s.framedBytes());
        o.addProperty("rejectedBytes", s.rejectedBytes());
        o.addProperty("pendingBytes", s.pendingBytes());
        o.addProperty("samples", s.samples());
        o.addProperty("lostSamples", s.lostSamples());
        o.addProperty("edges", s.edges());
        o.addProperty("speedReadings", s.speedReadings());
        return o;
    }

    private static JsonObject capture(RecordingContent.Captured c) {
        JsonObject o = new JsonObject();
        o.addProperty("capture", String.format(Locale.ROOT, "c%02d", c.number()));
        o.addProperty("point", c.capture().point());
        o.addProperty("axis", c.capture().axis());
        o.addProperty("mount", c.capture().mount().word());
        o.addProperty("regime", c.capture().regime().word());
        o.addProperty("condition", c.capture().condition().toString());
        Json.put(o, "fromS", c.fromS());
        Json.put(o, "toS", c.toS());
        o.addProperty("samples", c.samples());
        return o;
    }

    static JsonObject reading(LiveReading r) {
        JsonObject o = new JsonObject();
        o.addProperty("source", r.source());
        o.addProperty("segment", r.segment());
        Json.put(o, "endS", r.endS());
        Json.put(o, "rmsMps2", r.rmsMps2());
        Json.put(o, "peakMps2", r.peakMps2());
        o.addProperty("samples", r.samples());
        o.addProperty("expectedSamples", r.expectedSamples());
        r.speedRpm().ifPresent(rpm -> Json.put(o, "speedRpm", rpm));
        o.addProperty("atLimit", r.atLimit());
        return o;
    }
}
