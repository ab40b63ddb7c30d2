package tickover.cli;

import com.google.gson.JsonObject;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tickover.store.KeptVehicle;
import tickover.store.Log;

/** Lists the vehicles of the log. */
@Command(
        name = "vehicles",
        description = "Lists the vehicles in the log; 'fleet' ranks them by what needs a look.",
        footerHeading = "%nExamples:%n",
        footer = {"  tickover vehicles", "  tickover vehicles --json"})
final class VehiclesVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    VehiclesVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        List<KeptVehicle> vehicles;
        try (Log log = Log.open(shared.log())) {
            vehicles = log.vehicles();
        }
        if (shared.json()) {
            terminal.json(Json.array(vehicles, VehiclesVerb::json));
        } else if (vehicles.isEmpty()) {
            terminal.line(
                    "The log at "
                            + shared.log()
                            + " knows no vehicle; 'tickover import DIR' takes a visit in.");
        } else {
            TextTable table =
                    new TextTable(
                            "Unit", ">Visits", "Last visit", ">Repairs", ">Notes", "Description");
            for (KeptVehicle v : vehicles) {
                table.row(
                        v.unit(),
                        Integer.toString(v.visits()),
                        v.lastVisit().map(d -> d.toLocalDate().toString()).orElse("-"),
                        Integer.toString(v.repairs()),
                        Integer.toString(v.notes()),
                        v.description());
            }
            terminal.lines(table.lines());
        }
        return ExitCode.DONE;
    }

    private static JsonObject json(KeptVehicle v) {
        JsonObject o = new JsonObject();
        o.addProperty("unit", v.unit());
        o.addProperty("description", v.description());
        o.addProperty("visits", v.visits());
        v.lastVisit().ifPresent(d -> o.addProperty("lastVisit", d.toString()));
        o.addProperty("repairs", v.repairs());
        o.addProperty("notes", v.notes());
        return o;
    }
}
