package pigmentbook;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/** The floor plan: which rooms there are, and that a room only ever uses rooms below it. */
@AnalyzeClasses(packages = "pigmentbook", importOptions = ImportOption.DoNotIncludeTests.class)
class RoomsTest {

    /** From the street inwards: a room uses the rooms after it, never those before it. */
    private static final List<String> ROOMS =
            List.of("cli", "web", "sheet", "store", "mix", "tint", "book", "mold", "colour", "quantity");

    /** Rooms that know no files, no clock and no network. */
    private static final List<String> DOMAIN = List.of("mix", "tint", "book", "mold", "colour", "quantity");

    @ArchTest
    void doorsOpenOneWay(JavaClasses classes) {
        for (int i = 1; i < ROOMS.size(); i++) {
            String[] outer = packages(ROOMS.subList(0, i));
            noClasses()
                    .that()
                    .resideInAPackage("pigmentbook." + ROOMS.get(i) + "..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(outer)
                    .because("a formula is read and tested without files, pages or commands")
                    .allowEmptyShould(true)
                    .check(classes);
        }
    }

    @ArchTest
    void theDomainTouchesNoFilesNoNetworkAndNoChance(JavaClasses classes) {
        noClasses()
                .that()
                .resideInAnyPackage(packages(DOMAIN))
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage("java.io..", "java.nio..", "java.net..", "com.fasterxml..", "org.apache.poi..")
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.util.Random")
                .because("the same input gives the same answer")
                .check(classes);
    }

    @ArchTest
    void theDomainReadsNoClock(JavaClasses classes) {
        noClasses()
                .that()
                .resideInAnyPackage(packages(DOMAIN))
                .should()
                .callMethod(java.time.LocalDate.class, "now")
                .orShould()
                .callMethod(java.time.LocalDateTime.class, "now")
                .orShould()
                .callMethod(System.class, "currentTimeMillis")
                .because("the day is given")
                .check(classes);
    }

    @ArchTest
    void everyRoomIsOnThePlanAndHasItsSign(JavaClasses classes) {
        Set<String> found = classes.stream()
                .map(JavaClass::getPackageName)
                .filter(name -> name.startsWith("pigmentbook."))
                .map(name -> name.substring("pigmentbook.".length()))
                .collect(Collectors.toSet());
        assertThat(ROOMS).containsAll(found);
        Set<String> signed = classes.stream()
                .filter(each -> each.getSimpleName().equals("package-info"))
                .map(each -> each.getPackageName().substring("pigmentbook.".length()))
                .collect(Collectors.toSet());
        assertThat(signed).isEqualTo(found);
    }

    private static String[] packages(List<String> rooms) {
        return rooms.stream().map(room -> "pigmentbook." + room + "..").toArray(String[]::new);
    }
}
