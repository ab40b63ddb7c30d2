package tickover;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noMethods;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethod;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.library.Architectures.LayeredArchitecture;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** The package table as an allow-list, and the rules that keep each room's job its own. */
class ArchitectureTest {
    private static final JavaClasses HOUSE =
            new ClassFileImporter()
                    .withImportOption(new ImportOption.DoNotIncludeTests())
                    .importPackages("tickover");

    /** Who may use whom. A package that is not listed here belongs nowhere, and fails. */
    private static Map<String, String[]> allowList() {
        Map<String, String[]> table = new LinkedHashMap<>();
        table.put("unit", new String[] {});
        table.put("link", new String[] {"unit"});
        table.put("wire", new String[] {"unit"});
        table.put("align", new String[] {"unit", "wire"});
        table.put("dsp", new String[] {"unit"});
        table.put("order", new String[] {"unit", "align", "dsp"});
        table.put("drive", new String[] {"unit"});
        table.put("diagnose", new String[] {"unit", "dsp", "order", "drive"});
        table.put("store", new String[] {"unit", "align", "order", "drive", "diagnose"});
        table.put("report", new String[] {"unit", "order", "drive", "diagnose", "store"});
        table.put("sim", new String[] {"unit", "link", "wire", "dsp", "drive"});
        table.put(
                "session",
                new String[] {
                    "unit",
                    "link",
                    "wire",
                    "align",
                    "dsp",
                    "order",
                    "drive",
                    "diagnose",
                    "store",
                    "report",
                    "sim"
                });
        String[] front = {"drive", "order", "diagnose", "store", "report", "session", "sim"};
        table.put("cli", front);
        table.put("console", front);
        return table;
    }

    @Test
    void packagesUseOnlyWhatTheTableAllows() {
        LayeredArchitecture house =
                layeredArchitecture()
                        .consideringOnlyDependenciesInAnyPackage("tickover..")
                        .layer("root")
                        .definedBy("tickover");
        Map<String, String[]> table = allowList();
        for (String name : table.keySet()) {
            house = house.layer(name).definedBy("tickover." + name + "..");
        }
        for (Map.Entry<String, String[]> row : table.entrySet()) {
            house =
                    row.getValue().length == 0
                            ? house.whereLayer(row.getKey()).mayNotAccessAnyLayer()
                            : house.whereLayer(row.getKey()).mayOnlyAccessLayers(row.getValue());
        }
        house.whereLayer("root")
                .mayOnlyAccessLayers("cli", "console")
                .ensureAllClassesAreContainedInArchitecture()
                .check(HOUSE);
    }

    @Test
    void packagesFormNoCycle() {
        slices().matching("tickover.(*)..").should().beFreeOfCycles().check(HOUSE);
    }

    @Test
    void databaseIsUsedOnlyByTheStore() {
        noClasses()
                .that()
                .resideOutsideOfPackage("tickover.store..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.sql..", "org.sqlite..")
                .check(HOUSE);
    }

    @Test
    void screenToolkitIsUsedOnlyByTheConsole() {
        noClasses()
                .that()
                .resideOutsideOfPackage("tickover.console..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("javafx..")
                .check(HOUSE);
    }

    @Test
    void viewModelsKnowNoScene() {
        noClasses()
                .that()
                .resideInAPackage("tickover.console.model..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "javafx.scene..", "javafx.stage..", "javafx.application..", "atlantafx..")
                .check(HOUSE);
    }

    @Test
    void portLibraryIsUsedOnlyByTheLink() {
        noClasses()
                .that()
                .resideOutsideOfPackage("tickover.link..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("com.fazecast..")
                .check(HOUSE);
    }

    @Test
    void pdfLibraryIsUsedOnlyByTheReport() {
        noClasses()
                .that()
                .resideOutsideOfPackage("tickover.report..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("com.openhtmltopdf..", "org.apache.pdfbox..", "com.ibm.icu..")
                .check(HOUSE);
    }

    @Test
    void standardStreamsAreUsedOnlyByTheCommandLine() {
        noClasses()
                .that()
                .resideOutsideOfPackages("tickover", "tickover.cli..")
                .should()
                .accessField(System.class, "out")
                .orShould()
                .accessField(System.class, "err")
                .orShould()
                .accessField(System.class, "in")
                .check(HOUSE);
    }

    @Test
    void computingRoomsHaveNoClockIoThreadOrLogger() {
        noClasses()
                .that()
                .resideInAnyPackage(
                        "tickover.unit..",
                        "tickover.wire..",
                        "tickover.align..",
                        "tickover.dsp..",
                        "tickover.order..",
                        "tickover.drive..",
                        "tickover.diagnose..")
                .should()
                .callMethod(System.class, "currentTimeMillis")
                .orShould()
                .callMethod(System.class, "nanoTime")
                .orShould()
                .dependOnClassesThat(clockIoThreadOrLogger())
                .check(HOUSE);
    }

    private static DescribedPredicate<JavaClass> clockIoThreadOrLogger() {
        return new DescribedPredicate<>("a clock, files, streams, threads or a logger") {
            @Override
            public boolean test(JavaClass c) {
                String name = c.getName();
                return name.equals("java.time.Clock")
                        || name.equals("java.lang.Thread")
                        || name.startsWith("java.util.concurrent.")
                        || name.startsWith("java.nio.file.")
                        || name.startsWith("java.net.")
                        || name.startsWith("java.util.logging.")
                        || name.equals("java.io.File")
                        || name.startsWith("java.io.File");
            }
        };
    }

    @Test
    void staticFieldsAreFinal() {
        fields().that().areStatic().should().beFinal().check(HOUSE);
    }

    @Test
    void optionalIsNeverAFieldOrParameter() {
        fields().should().notHaveRawType(Optional.class).check(HOUSE);
        noMethods().should(takeAnOptional()).check(HOUSE);
    }

    private static com.tngtech.archunit.lang.ArchCondition<JavaMethod> takeAnOptional() {
        return new com.tngtech.archunit.lang.ArchCondition<>("take an Optional") {
            @Override
            public void check(JavaMethod method, com.tngtech.archunit.lang.ConditionEvents events) {
                boolean takes =
                        method.getRawParameterTypes().stream()
                                        .anyMatch(t -> t.isEquivalentTo(Optional.class))
                                && !method.getName().startsWith("lambda$");
                events.add(
                        new com.tngtech.archunit.lang.SimpleConditionEvent(
                                method, takes, method.getDescription()));
            }
        };
    }

    @Test
    void classesAreFinalOrSealedOrInterfaces() {
        classes()
                .that()
                .areTopLevelClasses()
                .and()
                .areNotInterfaces()
                .should()
                .haveModifier(com.tngtech.archunit.core.domain.JavaModifier.FINAL)
                .orShould()
                .beEnums()
                .check(HOUSE);
    }
}
