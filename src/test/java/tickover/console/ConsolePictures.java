package tickover.console;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.FutureTask;
import java.util.function.BooleanSupplier;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.scene.control.ScrollPane;
import javafx.scene.image.PixelReader;
import javafx.scene.image.WritableImage;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import tickover.console.model.ConsoleModel;
import tickover.console.model.ConsoleOptions;
import tickover.console.model.ListenModel;
import tickover.console.model.LiveState;
import tickover.console.model.Preferences.Theme;
import tickover.console.model.Screen;
import tickover.console.model.Touch;

/**
 * Takes a picture of every screen, for the documents and to be looked at. Run by hand; {@code
 * DEVELOPERS.md} has the command.
 */
final class ConsolePictures {
    private static final int WIDTH_PIXELS = 1280;
    private static final int HEIGHT_PIXELS = 800;
    private static final long PATIENCE_MS = 120_000;
    private static final long SETTLE_MS = 600;
    private static final long LISTEN_MS = 6000;

    private final Path folder;
    private final ConsoleModel console;
    private final Scene scene;

    private ConsolePictures(Path folder, ConsoleModel console, Scene scene) {
        this.folder = folder;
        this.console = console;
        this.scene = scene;
    }

    /**
     * Takes all pictures.
     *
     * @param args folder of the pictures, folder of a log with visits of ML-07, and perhaps {@code
     *     bench} and others for some of them alone
     */
    public static void main(String[] args) throws Exception {
        Path folder = Path.of(args[0]);
        Files.createDirectories(folder);
        CountDownLatch up = new CountDownLatch(1);
        Platform.startup(up::countDown);
        up.await();
        Platform.setImplicitExit(false);
        ScreenErrands errands = new ScreenErrands();
        ConsolePictures pictures =
                onScreen(
                        () -> {
                            ConsoleModel console =
                                    new ConsoleModel(
                                            new ConsoleOptions(Path.of(args[1]), true), errands);
                            Scene scene = new Shell(console).scene(WIDTH_PIXELS, HEIGHT_PIXELS);
                            Stage stage = new Stage();
                            stage.setScene(scene);
                            stage.show();
                            console.vehicles().load();
                            return new ConsolePictures(folder, console, scene);
                        });
        List<String> wanted = List.of(args).subList(2, args.length);
        try {
            if (wanted.isEmpty() || wanted.contains("round")) {
                pictures.take();
            }
            if (wanted.isEmpty() || wanted.contains("bench")) {
                pictures.bench();
            }
            if (wanted.isEmpty() || wanted.contains("listen")) {
                pictures.listen();
            }
            if (wanted.isEmpty() || wanted.contains("compare")) {
                pictures.compare();
            }
        } finally {
            errands.close();
            Platform.exit();
        }
        System.exit(0);
    }

    private static <T> T onScreen(Callable<T> work) throws Exception {
        FutureTask<T> task = new FutureTask<>(work);
        Platform.runLater(task);
        return task.get();
    }

    private void run(Runnable work) throws Exception {
        onScreen(
                () -> {
                    work.run();
                    return this;
                });
    }

    private void await(BooleanSupplier condition) throws Exception {
        long until = System.nanoTime() + PATIENCE_MS * 1_000_000;
        while (!onScreen(condition::getAsBoolean)) {
            if (System.nanoTime() > until) {
                throw new IllegalStateException("it does not happen");
            }
            Thread.sleep(50);
        }
        Thread.sleep(SETTLE_MS);
    }

    private void take() throws Exception {
        await(() -> !console.vehicles().all().isEmpty());
        picture("vehicle");
        run(() -> console.vehicles().choose("ML-07"));
        await(() -> console.unit().get().equals("ML-07"));
        run(() -> console.go(Screen.DRIVE));
        await(() -> true);
        picture("drive");
        run(() -> console.go(Screen.ROUND));
        await(() -> true);
        picture("round-before");
        run(() -> console.round().press());
        await(() -> console.round().state().get().speed().contains("rpm"));
        run(() -> console.round().press());
        await(() -> console.round().state().get().progressRatio() > 0.4);
        picture("round-capturing");
        await(
                () ->
                        console.round().state().get().touches().stream()
                                .anyMatch(t -> t.state() == Touch.State.GOOD));
        picture("round-good");
        live();
        run(() -> console.go(Screen.ROUND));
        run(() -> console.round().finish());
        await(() -> console.screen().get() == Screen.FINDINGS);
        await(() -> !console.findings().state().get().title().isEmpty());
        await(() -> !console.findings().busy().get());
        picture("findings");
        run(() -> console.go(Screen.HISTORY));
        await(() -> !console.history().state().get().unit().isEmpty());
        picture("history");
        run(() -> console.go(Screen.FINDINGS));
        await(() -> !console.findings().busy().get());
        for (Theme theme : new Theme[] {Theme.DARK, Theme.SUNLIGHT}) {
            run(() -> console.preferences().theme().set(theme));
            await(() -> true);
            picture("findings-" + theme.name().toLowerCase(Locale.ROOT));
        }
        run(() -> console.preferences().theme().set(Theme.LIGHT));
        run(() -> console.preferences().textScale().set(2.0));
        await(() -> true);
        picture("findings-double");
        run(() -> console.go(Screen.HISTORY));
        await(() -> !console.history().busy().get());
        picture("history-double");
        run(() -> console.go(Screen.DRIVE));
        await(() -> true);
        picture("drive-double");
        run(() -> console.preferences().textScale().set(1.0));
    }

    private void bench() throws Exception {
        chooseTheVan();
        run(() -> console.go(Screen.BENCH));
        run(
                () ->
                        console.bench()
                                .setup()
                                .part()
                                .set(
                                        console.bench().setup().parts().stream()
                                                .filter(p -> p.part().equals("idler"))
                                                .findFirst()
                                                .orElseThrow()));
        await(() -> true);
        picture("bench-before");
        run(() -> console.bench().aim(true));
        run(() -> console.bench().press());
        await(() -> console.bench().state().get().speed().contains("rpm"));
        benchCapture();
        await(() -> console.bench().state().get().speed().contains("rpm"));
        run(() -> console.bench().press());
        await(() -> console.bench().state().get().progressRatio() > 0.4);
        picture("bench-capturing");
        await(() -> !console.bench().state().get().verdict().headline().isEmpty());
        picture("bench");
        scroll(1, 0.55);
        picture("bench-levels");
        scroll(1, 0);
        for (Theme theme : new Theme[] {Theme.DARK, Theme.SUNLIGHT}) {
            run(() -> console.preferences().theme().set(theme));
            await(() -> true);
            picture("bench-" + theme.name().toLowerCase(Locale.ROOT));
        }
        run(() -> console.preferences().theme().set(Theme.LIGHT));
        run(() -> console.preferences().textScale().set(2.0));
        await(() -> true);
        picture("bench-double");
        run(() -> console.preferences().textScale().set(1.0));
        run(() -> console.bench().finish());
        await(() -> !console.bench().state().get().running());
    }

    private void compare() throws Exception {
        chooseTheVan();
        run(() -> console.go(Screen.COMPARE));
        await(() -> !console.compare().busy().get());
        await(() -> !console.compare().state().get().title().isEmpty());
        // What was captured for these pictures is no repair; the log's own last two visits are.
        run(() -> console.compare().later(repairedVisit()));
        await(() -> !console.compare().busy().get());
        picture("compare");
        run(() -> console.preferences().textScale().set(2.0));
        await(() -> true);
        picture("compare-double");
        run(() -> console.preferences().textScale().set(1.0));
    }

    private void listen() throws Exception {
        chooseTheVan();
        run(() -> console.go(Screen.FINDINGS));
        await(() -> !console.findings().busy().get());
        run(() -> console.go(Screen.LISTEN));
        await(() -> console.listen().choice().capture().get() != null);
        // The last visit of the log, against the one before it.
        run(
                () ->
                        console.listen().choice().visits().stream()
                                .filter(v -> v.words().contains("idler replaced"))
                                .findFirst()
                                .ifPresent(console.listen().choice().visit()::set));
        await(() -> true);
        run(() -> console.listen().choice().part().set("idler"));
        run(() -> console.listen().play(ListenModel.What.BOTH));
        await(() -> !console.listen().busy().get());
        picture("listen");
        run(() -> console.preferences().textScale().set(2.0));
        await(() -> true);
        picture("listen-double");
        run(() -> console.preferences().textScale().set(1.0));
    }

    private UUID repairedVisit() {
        return console.compare().laters().stream()
                .filter(v -> v.complaint().startsWith("idler replaced"))
                .findFirst()
                .orElseThrow()
                .id();
    }

    private void chooseTheVan() throws Exception {
        run(() -> console.vehicles().choose("ML-07"));
        await(() -> console.unit().get().equals("ML-07"));
    }

    /** Moves one of the screen's scrolled columns, counted from the left. */
    private void scroll(int column, double place) throws Exception {
        run(
                () ->
                        scene.getRoot().lookupAll(".scroll-pane").stream()
                                .map(ScrollPane.class::cast)
                                .sorted(
                                        Comparator.comparingDouble(
                                                s -> s.localToScene(0, 0).getX()))
                                .skip(column)
                                .findFirst()
                                .orElseThrow()
                                .setVvalue(place));
        await(() -> true);
    }

    private void benchCapture() throws Exception {
        int before = onScreen(() -> console.bench().state().get().takes().size());
        run(() -> console.bench().press());
        await(
                () ->
                        console.bench().state().get().takes().size() > before
                                && !console.bench().state().get().capturing()
                                && !console.bench().state().get().checking());
    }

    private void live() throws Exception {
        run(() -> console.go(Screen.LIVE));
        await(() -> console.live().state().get().bars().stream().anyMatch(this::hasError));
        Thread.sleep(LISTEN_MS);
        run(() -> console.live().choose("idler"));
        run(() -> console.live().point(9.72));
        await(() -> true);
        picture("live");
        run(() -> console.live().swap());
        await(() -> true);
        run(() -> console.live().hear());
        await(() -> console.live().hearing().words().get().contains("idler"));
        picture("live-knocks");
        run(() -> console.live().hear());
        run(() -> console.live().swap());
        for (Theme theme : new Theme[] {Theme.DARK, Theme.SUNLIGHT}) {
            run(() -> console.preferences().theme().set(theme));
            await(() -> true);
            picture("live-" + theme.name().toLowerCase(Locale.ROOT));
        }
        run(() -> console.preferences().theme().set(Theme.LIGHT));
        run(() -> console.preferences().textScale().set(2.0));
        await(() -> true);
        picture("live-double");
        run(() -> console.go(Screen.ROUND));
        await(() -> true);
        picture("round-double");
        run(() -> console.preferences().textScale().set(1.0));
    }

    private boolean hasError(LiveState.Bar bar) {
        return bar.errorRatio() > 0;
    }

    private void picture(String name) throws Exception {
        BufferedImage image = onScreen(this::snapshot);
        write(image, folder.resolve(name + ".png"));
    }

    private BufferedImage snapshot() {
        WritableImage shot = scene.snapshot(null);
        PixelReader pixels = shot.getPixelReader();
        BufferedImage image =
                new BufferedImage(
                        (int) shot.getWidth(), (int) shot.getHeight(), BufferedImage.TYPE_INT_RGB);
        for (int y = 0; y < image.getHeight(); y++) {
            for (int x = 0; x < image.getWidth(); x++) {
                image.setRGB(x, y, pixels.getArgb(x, y));
            }
        }
        return image;
    }

    private static void write(BufferedImage image, Path file) throws IOException {
        ImageIO.write(image, "png", file.toFile());
    }
}
