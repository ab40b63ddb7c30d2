package tickover.console.model;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import tickover.drive.DriveModel;
import tickover.report.RoutingPage;

/** The belt's way round the engine, on a page to print and take along. */
final class RoutingSketch {
    private RoutingSketch() {}

    /** Writes the page of the drive that is entered. */
    static void keep(ConsoleModel console) {
        Optional<DriveModel> model = console.drive().outcome().get().model();
        if (model.isEmpty()) {
            console.say("No sketch yet. " + console.drive().outcome().get().complaints().get(0));
            return;
        }
        String page = RoutingPage.html(model.get());
        Path file =
                console.options()
                        .dataDir()
                        .resolve("sketches")
                        .resolve(
                                ConsoleModel.fileNameOf(model.get().vehicle().unit())
                                        + "-routing.html");
        console.errands()
                .send(
                        () -> {
                            Files.createDirectories(file.getParent());
                            return Files.writeString(file, page);
                        },
                        kept ->
                                console.say(
                                        "The routing sketch is "
                                                + kept
                                                + "; open it in a browser to print."),
                        console::say);
    }
}
