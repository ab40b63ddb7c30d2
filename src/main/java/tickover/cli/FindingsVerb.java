package tickover.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;
import tickover.diagnose.VisitResult;

/** What a visit says: who is suspected, why, and what to test next. */
@Command(
        name = "findings",
        description = {
            "Says which part most probably makes the noise, how sure that is, why, and which test"
                    + " would tell more.",
            "",
            "The verdict is 'component' (one source stands out), 'none' (nothing is out of the"
                    + " ordinary) or 'unclear' (the next test says what would decide). All three"
                    + " are answers and end with exit code 0.",
            "",
            "A visit in the log is held against the vehicle's earlier ones too: a part that has"
                    + " grown louder is suspected more. Repairs that are marked ('tickover"
                    + " repair') count as a new beginning."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover findings ML-07-today",
            "  tickover findings 0195f0c2",
            "  tickover findings ML-07-today --json"
        })
final class FindingsVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(
            paramLabel = "VISIT",
            description =
                    "A visit folder, which is analysed without being stored, or the id of an"
                            + " imported visit; the first characters of an id will do.")
    private String visit;

    FindingsVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        Visits visits = new Visits(terminal, shared.log());
        VisitHandle handle = visits.find(visit);
        VisitResult result = visits.result(handle);
        if (shared.json()) {
            terminal.json(FindingsJson.of(handle, result));
        } else {
            terminal.lines(FindingsText.lines(handle, result.findings()));
        }
        return ExitCode.DONE;
    }
}
