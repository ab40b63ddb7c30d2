package tickover.cli;

import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.List;
import tickover.diagnose.RepairProof;
import tickover.drive.PartWords;
import tickover.report.RepairWords;

/** Whether a repair is proven, as text and as JSON. */
final class ProofText {
    private ProofText() {}

    static List<String> lines(RepairProof proof) {
        List<String> lines = new ArrayList<>();
        lines.add(RepairWords.headline(proof));
        lines.addAll(Prose.fold("", proof.text()));
        if (proof.newFaults().isEmpty()) {
            lines.add("Nothing new stands out.");
        } else {
            proof.newFaults().forEach(n -> lines.addAll(Prose.fold("NEW: ", n.text())));
        }
        if (!proof.others().isEmpty()) {
            lines.add("");
            lines.add("The parts that were not repaired:");
            for (RepairProof.Other o : proof.others()) {
                lines.addAll(
                        Prose.fold("  " + PartWords.plain(o.change().part()) + ": ", o.text()));
            }
        }
        lines.add("");
        return lines;
    }

    static JsonObject json(RepairProof proof) {
        JsonObject o = new JsonObject();
        o.addProperty("part", proof.part());
        o.addProperty("state", proof.state().word());
        o.addProperty("text", proof.text());
        o.add(
                "newFaults",
                Json.words(proof.newFaults().stream().map(RepairProof.NewFault::text).toList()));
        o.add(
                "others",
                Json.array(
                        proof.others(),
                        other -> {
                            JsonObject each = new JsonObject();
                            each.addProperty("part", other.change().part());
                            each.addProperty("changed", other.changed());
                            each.addProperty("text", other.text());
                            return each;
                        }));
        return o;
    }
}
