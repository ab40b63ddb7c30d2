package tickover.cli;

import java.util.Set;
import java.util.TreeSet;
import tickover.diagnose.Candidate;
import tickover.diagnose.VisitResult;
import tickover.drive.PartWords;

/** What verbs that hold a visit against an earlier one ask alike. */
final class TwoVisits {
    private TwoVisits() {}

    /** Says so if they are of two vehicles; that is allowed. */
    static void warnOfTwoVehicles(Terminal terminal, VisitHandle before, VisitHandle after) {
        String a = before.visit().vehicle().unit();
        String b = after.visit().vehicle().unit();
        if (!a.equals(b)) {
            terminal.note(
                    "these are two vehicles, "
                            + a
                            + " and "
                            + b
                            + ": a difference between them is no change of either");
        }
    }

    /** Returns the part named with {@code --repaired} if the visit before the repair has it. */
    static String repaired(String part, VisitHandle before, VisitResult result) {
        Set<String> known = new TreeSet<>();
        result.levels().forEach(l -> known.add(l.part()));
        result.findings().candidates().forEach(c -> known.add(c.component()));
        known.remove(Candidate.NONE);
        return PartWords.find(part, known)
                .orElseThrow(
                        () ->
                                CliException.badInput(
                                        "--repaired "
                                                + part
                                                + ": "
                                                + before.visit().vehicle().unit()
                                                + " has "
                                                + String.join(", ", known)));
    }
}
