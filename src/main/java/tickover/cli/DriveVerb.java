package tickover.cli;

import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tickover.drive.Collision;
import tickover.drive.DriveBelt;
import tickover.drive.DriveModel;
import tickover.drive.DrivePart;
import tickover.drive.PartLine;
import tickover.report.EngineDrawing;
import tickover.store.VisitFolder;

/** What turns how fast, which way, and what can be told apart. */
@Command(
        name = "drive",
        description = {
            "Says how fast and which way every part of an accessory drive turns, which orders it"
                    + " can make, and which lines of different parts cannot be told apart.",
            "",
            "All orders are per crank turn. What cannot be computed (no positions: no belt length)"
                    + " is left out, never guessed."
        },
        footerHeading = "%nExamples:%n",
        footer = {
            "  tickover drive ML-07/vehicle.toml",
            "  tickover drive ML-07/vehicle.toml --svg front.svg",
            "  tickover drive ML-07/vehicle.toml --json"
        })
final class DriveVerb implements Callable<Integer> {
    private final Terminal terminal;

    @Mixin private final SharedOptions shared;

    @Parameters(paramLabel = "VEHICLE.toml", description = "The vehicle's description.")
    private Path file;

    @Option(
            names = "--svg",
            paramLabel = "FILE",
            description = "Also draw the engine's front to this file.")
    private Path svg;

    DriveVerb(Terminal terminal) {
        this.terminal = terminal;
        this.shared = new SharedOptions(terminal);
    }

    @Override
    public Integer call() {
        DriveModel model = Drives.model(VisitFolder.readVehicle(file), file.toString());
        if (svg != null) {
            OutputFile.write(
                    svg, EngineDrawing.svg(model).getBytes(StandardCharsets.UTF_8), terminal);
        }
        if (shared.json()) {
            terminal.json(json(model));
        } else {
            DriveText.lines(model).forEach(terminal::line);
        }
        return ExitCode.DONE;
    }

    private static JsonObject json(DriveModel model) {
        JsonObject o = new JsonObject();
        o.addProperty("unit", model.vehicle().unit());
        o.add("parts", Json.array(model.parts(), DriveVerb::part));
        o.add("belts", Json.array(model.belts(), DriveVerb::belt));
        o.add("collisions", Json.array(model.collisions(), DriveVerb::collision));
        o.add("engineLines", Json.array(model.engineLines(), DriveVerb::line));
        o.add("notes", Json.words(model.notes()));
        return o;
    }

    private static JsonObject part(DrivePart p) {
        JsonObject o = new JsonObject();
        o.addProperty("name", p.name());
        o.addProperty("role", p.role().word());
        Json.put(o, "turnsPerCrankTurn", p.turnsPerCrankTurn());
        o.addProperty("direction", p.direction().word());
        Json.putIfPresent(o, "wrapDeg", p.wrapDeg());
        o.add("lines", Json.array(p.lines(), DriveVerb::line));
        return o;
    }

    private static JsonObject line(PartLine l) {
        JsonObject o = new JsonObject();
        o.addProperty("kind", l.kind());
        Json.put(o, "order", l.order());
        o.add("sidebandOrders", Json.numbers(l.sidebandOrders()));
        o.addProperty("source", l.source());
        Json.put(o, "uncertaintyRatio", l.uncertaintyRatio());
        return o;
    }

    private static JsonObject collision(Collision c) {
        JsonObject o = new JsonObject();
        o.addProperty("a", c.a());
        o.addProperty("aLine", c.aLine());
        o.addProperty("b", c.b());
        o.addProperty("bLine", c.bLine());
        Json.put(o, "orderA", c.orderA());
        Json.put(o, "orderB", c.orderB());
        return o;
    }

    private static JsonObject belt(DriveBelt b) {
        JsonObject o = new JsonObject();
        o.addProperty("name", b.name());
        Json.putIfPresent(o, "lengthMm", b.lengthMm());
        OptionalDouble order = b.order();
        Json.putIfPresent(o, "order", order);
        o.add("lines", Json.array(b.line().map(List::of).orElse(List.of()), DriveVerb::line));
        return o;
    }
}
