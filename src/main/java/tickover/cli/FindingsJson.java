package tickover.cli;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.util.Locale;
import tickover.diagnose.Candidate;
import tickover.diagnose.CaptureSummary;
import tickover.diagnose.Evidence;
import tickover.diagnose.Findings;
import tickover.diagnose.NextTest;
import tickover.diagnose.QualityNote;
import tickover.diagnose.TestRisk;
import tickover.diagnose.VisitResult;
import tickover.order.TimeRange;

/** Findings as the visit-folder format describes the answer; keys may be added, never renamed. */
final class FindingsJson {
    private FindingsJson() {}

    static JsonObject of(VisitHandle visit, VisitResult result) {
        Findings findings = result.findings();
        Candidate subject = findings.subject();
        JsonObject o = new JsonObject();
        o.addProperty("verdict", findings.verdict().word());
        o.addProperty("component", subject.component());
        o.addProperty("fault", subject.fault().word());
        Json.put(o, "probability", subject.probability());
        o.add("candidates", Json.array(findings.candidates(), FindingsJson::candidate));
        findings.nextTests().stream().findFirst().ifPresent(t -> o.add("nextTest", test(t)));
        o.add("quality", Json.array(findings.quality(), FindingsJson::note));
        o.add("nextTests", Json.array(findings.nextTests(), FindingsJson::test));
        o.add("captures", Json.array(result.captures(), FindingsJson::capture));
        o.addProperty("visit", visit.visit().id().toString());
        o.addProperty("unit", visit.visit().vehicle().unit());
        o.addProperty("date", visit.visit().date().toString());
        o.addProperty("codeVersion", result.codeVersion());
        o.addProperty("settings", result.settings());
        return o;
    }

    private static JsonObject candidate(Candidate c) {
        JsonObject o = new JsonObject();
        o.addProperty("component", c.component());
        o.addProperty("fault", c.fault().word());
        Json.put(o, "probability", c.probability());
        JsonArray evidence = new JsonArray();
        for (Evidence e : c.evidence()) {
            JsonObject one = new JsonObject();
            one.addProperty("kind", e.kind().word());
            one.addProperty("text", e.text());
            Json.put(one, "strengthDb", e.strengthDb());
            evidence.add(one);
        }
        o.add("evidence", evidence);
        return o;
    }

    private static JsonObject test(NextTest t) {
        JsonObject o = new JsonObject();
        o.addProperty("kind", t.kind());
        o.addProperty("text", t.text());
        Json.put(o, "minutes", t.minutes());
        Json.put(o, "expectedGainBits", t.expectedGainBits());
        o.addProperty("risk", TestRisk.of(t.kind()).name().toLowerCase(Locale.ROOT));
        return o;
    }

    private static JsonObject note(QualityNote n) {
        JsonObject o = new JsonObject();
        o.addProperty("capture", n.capture());
        o.addProperty("problem", n.problem().word());
        o.addProperty("text", n.text());
        o.add("ranges", Json.array(n.ranges(), FindingsJson::range));
        return o;
    }

    private static JsonObject range(TimeRange r) {
        JsonObject o = new JsonObject();
        Json.put(o, "fromS", r.fromS());
        Json.put(o, "toS", r.toS());
        return o;
    }

    private static JsonObject capture(CaptureSummary c) {
        JsonObject o = new JsonObject();
        o.addProperty("capture", c.label().id());
        o.addProperty("point", c.label().point());
        o.addProperty("speedSource", c.speedSource());
        Json.put(o, "durationS", c.durationS());
        Json.put(o, "meanSpeedRpm", c.meanSpeedRpm());
        Json.put(o, "minSpeedRpm", c.minSpeedRpm());
        Json.put(o, "maxSpeedRpm", c.maxSpeedRpm());
        Json.put(o, "overallRmsMps2", c.overallRmsMps2());
        return o;
    }
}
