// Links of the first published version, with what it answered: old links keep working.
//
// The numbers were written down from that version's own answers, so they say that nothing
// has changed, not that it is right; the other tests do that.
#include <catch2/catch_test_macros.hpp>
#include <cmath>
#include <string>

#include "core/worked_case.h"

using namespace core;

namespace {

struct Golden {
  const char* link;
  const char* canonical;
  const char* entry;
  double heading_deg, cross_nm, to_go_nm, at_s;
  int laps;
  double end_s;
};

constexpr Golden kGolden[] = {
    {"inbound=206&turns=right&altitude=4000&tas=119&wind=60/"
     "19&arrive=217&timing=groundspeed&timer=level&bank=25&isa=+12&multiple=2.5&intercept=45&laps="
     "1",
     "inbound=206&turns=right&tas=119&isa=+12&bank=25&wind=60/"
     "19&arrive=217&timing=groundspeed&timer=level&multiple=2.5&intercept=45&laps=1",
     "direct", 38.805885596, 0.0273898748328, 1.61543858146, 187.046393291, 1, 499.658224364},
    {"inbound=110&turns=right&altitude=13000&tas=155&wind=106/"
     "16&arrive=149&leg=1:30&rule=still-air&heading=256&time=1:10&timing=groundspeed&timer=level&"
     "bank=25&isa=+12&laps=2",
     "inbound=110&turns=right&leg=1:30&altitude=13000&tas=155&isa=+12&bank=25&wind=106/"
     "16&arrive=149&heading=256&rule=still-air&time=1:10&timing=groundspeed&timer=level&laps=2",
     "direct", 256, 1.59220892056, 3.76587269019, 178.208127007, 2, 831.402237912},
    {"inbound=307&turns=right&altitude=13000&tas=92&wind=292/"
     "9&arrive=131&leg=1:30&timing=groundspeed&bank=25&isa=+12&laps=2",
     "inbound=307&turns=right&leg=1:30&altitude=13000&tas=92&isa=+12&bank=25&wind=292/"
     "9&arrive=131&timing=groundspeed&laps=2",
     "parallel", 128.825125284, 0.935285196442, 2.23209924703, 153.345955225, 2, 830.178370786},
    {"inbound=346&turns=right&altitude=15000&tas=195&wind=114/"
     "32&arrive=340&leg=1:30&entry=parallel&rule=track-30&heading=169&time=1:10&timing=groundspeed&"
     "timer=level&laps=1",
     "inbound=346&turns=right&leg=1:30&altitude=15000&tas=195&wind=114/"
     "32&arrive=340&entry=parallel&heading=169&rule=track-30&time=1:10&timing=groundspeed&timer="
     "level&laps=1",
     "parallel", 169, -1.662956161, 2.29296615635, 197.783109975, 1, 564.806037769},
    {"inbound=78&turns=right&altitude=4000&tas=120&wind=36/"
     "19&arrive=323&entry=offset&timer=level&laps=3",
     "inbound=78&turns=right&tas=120&wind=36/19&arrive=323&entry=offset&timer=level&laps=3",
     "offset", 236.708932127, -0.361061951796, 3.61906703137, 156.736471318, 3, 891.340908636},
    {"inbound=209&turns=right&altitude=15000&ias=155&wind=326/"
     "0&arrive=188&heading=331&time=1:10&timing=groundspeed&laps=1",
     "inbound=209&turns=right&altitude=15000&ias=155&wind=326/"
     "0&arrive=188&heading=331&time=1:10&timing=groundspeed&laps=1",
     "direct", 331, 5.12814662268, 2.87763948267, 240.479923843, 1, 669.437276678},
    {"inbound=104&turns=left&altitude=14000&ias=183&wind=69/4&arrive=132&rule=still-air&laps=2",
     "inbound=104&altitude=14000&ias=183&wind=69/4&arrive=132&rule=still-air&laps=2", "direct",
     285.748754463, -0.141522530362, 3.89689021271, 207.411254138, 2, 762.041111135},
    {"inbound=13&turns=right&altitude=9000&tas=158&wind=209/"
     "27&arrive=276&timing=groundspeed&timer=level&multiple=2.5&intercept=45&laps=1",
     "inbound=13&turns=right&altitude=9000&tas=158&wind=209/"
     "27&arrive=276&timing=groundspeed&timer=level&multiple=2.5&intercept=45&laps=1",
     "parallel", 183.949702004, 1.64866592361, 2.05821929477, 172.438501297, 1, 521.33946298},
    {"inbound=277&turns=right&altitude=9000&ias=130&wind=238/3&arrive=336&rule=drift-once&laps=1",
     "inbound=277&turns=right&altitude=9000&ias=130&wind=238/3&arrive=336&laps=1", "direct",
     99.1832127205, -0.379164907156, 3.25727418444, 160.472480153, 1, 445.375955768},
    {"inbound=48&turns=left&altitude=6000&ias=83&wind=16/"
     "16&arrive=184&entry=parallel&rule=drift-once&laps=0",
     "inbound=48&altitude=6000&ias=83&wind=16/16&arrive=184&entry=parallel", "parallel",
     225.899038293, 0.425851563624, 1.77396077662, 128.913156825, 0, 215.214219019},
    {"inbound=142&turns=right&altitude=12000&tas=139&wind=112/"
     "8&arrive=217&rule=drift-triple&timing=groundspeed&laps=0",
     "inbound=142&turns=right&altitude=12000&tas=139&wind=112/"
     "8&arrive=217&rule=drift-triple&timing=groundspeed",
     "direct", 326.947081183, -0.527669232278, 3.21497118159, 152.686563653, 0, 243.282092248},
    {"inbound=185&turns=right&altitude=4000&ias=115&wind=199/"
     "13&arrive=144&windref=true&variation=10W&laps=1",
     "inbound=185&turns=right&ias=115&wind=199/13&windref=true&variation=10W&arrive=144&laps=1",
     "direct", 357.54542654, -0.120323994256, 2.47816177428, 198.896309315, 1, 499.553499639},
    {"inbound=310&turns=right&altitude=15000&tas=173&wind=56/9&arrive=149&rule=drift-once&laps=2",
     "inbound=310&turns=right&altitude=15000&tas=173&wind=56/9&arrive=149&laps=2", "parallel",
     127.022039052, 1.52798580932, 3.74104890713, 158.051868553, 2, 874.509476269},
    {"inbound=153&turns=right&altitude=0&tas=172&wind=355/30&arrive=207&laps=0",
     "inbound=153&turns=right&altitude=0&tas=172&wind=355/30&arrive=207", "direct", 344.238843008,
     -0.507128380977, 2.42755480509, 158.983476035, 0, 204.222756539},
    {"inbound=215&turns=left&altitude=10000&ias=176&wind=140/"
     "20&arrive=150&entry=offset&timing=groundspeed&bank=25&isa=+12&multiple=2.5&intercept=45&laps="
     "1",
     "inbound=215&altitude=10000&ias=176&isa=+12&bank=25&wind=140/"
     "20&arrive=150&entry=offset&timing=groundspeed&multiple=2.5&intercept=45&laps=1",
     "offset", 64.0456803838, -0.911023446908, 2.54061478159, 146.557781457, 1, 502.539428752},
    {"inbound=36&turns=left&altitude=1000&tas=185&wind=321/"
     "27&arrive=82&heading=246&time=1:10&timing=groundspeed&windref=true&variation=11E&laps=0",
     "inbound=36&altitude=1000&tas=185&wind=321/"
     "27&windref=true&variation=11E&arrive=82&heading=246&time=1:10&timing=groundspeed",
     "direct", 246, 0.479416169579, 3.53782725221, 230.15646694, 0, 301.106237531},
    {"inbound=232&turns=left&altitude=10000&tas=123&wind=177/"
     "22&arrive=106&leg=4nm&windref=true&variation=8E&laps=3",
     "inbound=232&leg=4nm&altitude=10000&tas=123&wind=177/"
     "22&windref=true&variation=8E&arrive=106&laps=3",
     "offset", 91.1701577534, 0.702829213577, 4.51933345962, 214.232888658, 3, 1521.5060579},
    {"inbound=143&turns=right&altitude=0&tas=122&wind=298/21&arrive=69&entry=offset&laps=2",
     "inbound=143&turns=right&altitude=0&tas=122&wind=298/21&arrive=69&entry=offset&laps=2",
     "offset", 285.535664683, -1.79675111553, 1.06708101357, 133.878681883, 2, 701.0819344},
    {"inbound=322&turns=left&altitude=8000&ias=145&wind=297/"
     "30&arrive=59&entry=parallel&heading=70&time=1:10&timer=level&windref=true&variation=15W&laps="
     "1",
     "inbound=322&altitude=8000&ias=145&wind=297/"
     "30&windref=true&variation=15W&arrive=59&entry=parallel&heading=70&time=1:10&timer=level&laps="
     "1",
     "parallel", 70, -2.54882288907, 2.83521791852, 170.431533976, 1, 545.756841284},
    {"inbound=46&turns=left&altitude=5000&tas=114&wind=247/11&arrive=134&timing=groundspeed&laps=3",
     "inbound=46&altitude=5000&tas=114&wind=247/11&arrive=134&timing=groundspeed&laps=3",
     "parallel", 231.095763228, 0.519580835999, 1.05256954043, 133.624262188, 3, 1009.20392274},
    {"inbound=161&turns=right&altitude=10000&ias=174&wind=160/"
     "0&arrive=359&rule=drift-once&heading=354&time=1:10&bank=25&isa=+12&multiple=2.5&intercept=45&"
     "laps=3",
     "inbound=161&turns=right&altitude=10000&ias=174&isa=+12&bank=25&wind=160/"
     "0&arrive=359&heading=354&time=1:10&multiple=2.5&intercept=45&laps=3",
     "parallel", 354, 1.32678221663, 3.26437441717, 166.343507157, 3, 1055.13020741},
    {"inbound=306&turns=right&altitude=5000&tas=97&wind=85/"
     "10&arrive=238&leg=4nm&windref=true&variation=16E&laps=0",
     "inbound=306&turns=right&leg=4nm&altitude=5000&tas=97&wind=85/"
     "10&windref=true&variation=16E&arrive=238",
     "direct", 111.119890126, 0.218860999334, 3.98687682126, 337.581830431, 0, 479.109085048},
    {"inbound=198&turns=right&altitude=0&tas=87&wind=6/29&arrive=113&leg=1:30&laps=0",
     "inbound=198&turns=right&leg=1:30&altitude=0&tas=87&wind=6/29&arrive=113", "parallel",
     359.411549664, 0.717181033287, 0.380829417082, 152.479181104, 0, 165.346965607},
    {"inbound=11&turns=left&altitude=14000&tas=134&wind=306/"
     "28&arrive=238&windref=true&variation=19E&laps=0",
     "inbound=11&altitude=14000&tas=134&wind=306/28&windref=true&variation=19E&arrive=238",
     "offset", 230.073450677, -0.877279019043, 2.12360654188, 137.022508688, 0, 208.701529886},
    {"inbound=222&turns=left&altitude=15000&ias=135&wind=143/"
     "25&arrive=121&rule=drift-once&heading=127&time=1:10&timing=groundspeed&bank=25&isa=+12&"
     "multiple=2.5&intercept=45&laps=3",
     "inbound=222&altitude=15000&ias=135&isa=+12&bank=25&wind=143/"
     "25&arrive=121&heading=127&time=1:10&timing=groundspeed&multiple=2.5&intercept=45&laps=3",
     "direct", 127, 0.35959274767, 1.46875411611, 284.583304968, 3, 1303.5913938},
    {"inbound=351&turns=left&altitude=8000&ias=158&wind=242/"
     "20&arrive=326&rule=drift-once&heading=49&time=1:10&windref=true&variation=15W&multiple=2.5&"
     "intercept=45&laps=0",
     "inbound=351&altitude=8000&ias=158&wind=242/"
     "20&windref=true&variation=15W&arrive=326&heading=49&time=1:10&multiple=2.5&intercept=45",
     "direct", 49, -4.06819235481, -1.52201053206, 181.804955196, 0, 181.804955196},
    {"inbound=40&turns=right&altitude=3000&ias=161&wind=267/"
     "11&arrive=105&rule=drift-triple&bank=25&isa=+12&windref=true&variation=4E&laps=1",
     "inbound=40&turns=right&altitude=3000&ias=161&isa=+12&bank=25&wind=267/"
     "11&windref=true&variation=4E&arrive=105&rule=drift-triple&laps=1",
     "direct", 227.512650764, -0.595769411209, 3.36794783254, 158.143267452, 1, 446.325219246},
    {"inbound=59&turns=left&altitude=5000&tas=151&wind=8/"
     "17&arrive=248&heading=128&time=1:10&timer=level&multiple=2.5&intercept=45&laps=2",
     "inbound=59&altitude=5000&tas=151&wind=8/"
     "17&arrive=248&heading=128&time=1:10&timer=level&multiple=2.5&intercept=45&laps=2",
     "offset", 128, -4.81540848664, -0.514671466361, 136.538204527, 2, 839.909125767},
    {"inbound=240&turns=left&altitude=1000&ias=144&wind=102/"
     "1&arrive=57&rule=drift-triple&timing=groundspeed&laps=2",
     "inbound=240&altitude=1000&ias=144&wind=102/"
     "1&arrive=57&rule=drift-triple&timing=groundspeed&laps=2",
     "parallel", 60.7872476982, 1.45602220791, 2.02526885685, 129.957504924, 2, 709.946635758},
    {"inbound=174&turns=right&altitude=3000&ias=174&wind=317/"
     "16&arrive=163&entry=offset&rule=drift-triple&timer=level&laps=2",
     "inbound=174&turns=right&altitude=3000&ias=174&wind=317/"
     "16&arrive=163&entry=offset&rule=drift-triple&timer=level&laps=2",
     "offset", 314.887352001, 1.40859315493, 1.49860929671, 183.941813111, 2, 798.374604489},
    {"inbound=236&turns=right&altitude=3000&ias=197&wind=163/"
     "15&arrive=319&leg=4nm&rule=track-30&laps=3",
     "inbound=236&turns=right&leg=4nm&altitude=3000&ias=197&wind=163/"
     "15&arrive=319&rule=track-30&laps=3",
     "direct", 67.997694816, -0.924774553193, 3.91587703423, 137.967941569, 3, 979.700970107},
    {"inbound=114&turns=right&altitude=3000&tas=111&wind=95/"
     "19&arrive=35&entry=offset&heading=284&time=1:10&timing=groundspeed&timer=level&bank=25&isa=+"
     "12&windref=true&variation=2E&laps=3",
     "inbound=114&turns=right&altitude=3000&tas=111&isa=+12&bank=25&wind=95/"
     "19&windref=true&variation=2E&arrive=35&entry=offset&heading=284&time=1:10&timing=groundspeed&"
     "timer=level&laps=3",
     "offset", 284, -1.24269979761, 3.76900433939, 171.943254719, 3, 903.9210819},
    {"inbound=229&turns=left&altitude=13000&ias=101&wind=291/"
     "33&arrive=199&rule=still-air&timing=groundspeed&timer=level&laps=2",
     "inbound=229&altitude=13000&ias=101&wind=291/"
     "33&arrive=199&rule=still-air&timing=groundspeed&timer=level&laps=2",
     "direct", 7.90568978346, 0.107475090132, 2.43702599521, 165.287693545, 2, 688.387617828},
    {"inbound=137&turns=left&altitude=1000&ias=166&wind=314/"
     "31&arrive=98&entry=parallel&rule=still-air&timing=groundspeed&timer=level&multiple=2.5&"
     "intercept=45&laps=3",
     "inbound=137&altitude=1000&ias=166&wind=314/"
     "31&arrive=98&entry=parallel&rule=still-air&timing=groundspeed&timer=level&multiple=2.5&"
     "intercept=45&laps=3",
     "parallel", 317, 3.12916387992, 1.77032105226, 193.631382651, 3, 1164.96388795},
    {"inbound=256&turns=right&altitude=0&tas=174&wind=352/"
     "3&arrive=152&leg=1:30&heading=245&time=1:10&timing=groundspeed&timer=level&bank=25&isa=+12&"
     "multiple=2.5&intercept=45&laps=3",
     "inbound=256&turns=right&leg=1:30&altitude=0&tas=174&isa=+12&bank=25&wind=352/"
     "3&arrive=152&heading=245&time=1:10&timing=groundspeed&timer=level&multiple=2.5&intercept=45&"
     "laps=3",
     "parallel", 245, -2.15073452542, -4.54404802726, 113.168364339, 3, 1493.0467927},
    {"inbound=139&turns=left&altitude=5000&ias=95&wind=207/"
     "16&arrive=236&multiple=2.5&intercept=45&laps=0",
     "inbound=139&altitude=5000&ias=95&wind=207/16&arrive=236&multiple=2.5&intercept=45",
     "parallel", 314.650870407, 0.853178598924, 1.25463318708, 139.229377922, 0, 204.976306705},
    {"inbound=115&turns=left&altitude=3000&tas=131&wind=274/"
     "11&arrive=77&entry=parallel&rule=track-30&windref=true&variation=11W&laps=3",
     "inbound=115&altitude=3000&tas=131&wind=274/"
     "11&windref=true&variation=11W&arrive=77&entry=parallel&rule=track-30&laps=3",
     "parallel", 294.164532342, 2.57919794677, 0.198448175693, 130.556978438, 3, 1061.97219507},
    {"inbound=103&turns=right&altitude=8000&ias=84&wind=352/"
     "27&arrive=4&entry=offset&rule=drift-triple&timer=level&laps=2",
     "inbound=103&turns=right&altitude=8000&ias=84&wind=352/"
     "27&arrive=4&entry=offset&rule=drift-triple&timer=level&laps=2",
     "offset", 299.319746257, -0.874729443385, 1.50747272853, 129.840513349, 2, 643.39343727},
    {"inbound=184&turns=right&altitude=7000&ias=80&wind=54/2&arrive=154&entry=parallel&laps=0",
     "inbound=184&turns=right&altitude=7000&ias=80&wind=54/2&arrive=154&entry=parallel", "parallel",
     2.72913684159, 0.061956748452, 0.202219206628, 129.905886958, 0, 138.473197919},
    {"inbound=308&turns=right&altitude=14000&ias=134&wind=61/"
     "10&arrive=262&leg=4nm&rule=drift-once&timing=groundspeed&laps=3",
     "inbound=308&turns=right&leg=4nm&altitude=14000&ias=134&wind=61/"
     "10&arrive=262&timing=groundspeed&laps=3",
     "direct", 118.441546982, -0.04530135565, 4.02733247086, 245.339521947, 3, 1230.48002905},
    {"inbound=107&turns=right&altitude=8000&tas=88&wind=355/"
     "17&arrive=195&rule=drift-once&heading=307&time=1:10&timing=groundspeed&windref=true&"
     "variation=1W&multiple=2.5&intercept=45&laps=3",
     "inbound=107&turns=right&altitude=8000&tas=88&wind=355/"
     "17&windref=true&variation=1W&arrive=195&heading=307&time=1:10&timing=groundspeed&multiple=2."
     "5&intercept=45&laps=3",
     "direct", 307, -0.369774036212, 1.8947872688, 156.001292167, 3, 965.76273634},
    {"inbound=293&turns=left&altitude=13000&tas=132&wind=351/"
     "8&arrive=187&rule=still-air&heading=204&time=1:10&timing=groundspeed&windref=true&variation="
     "6W&laps=1",
     "inbound=293&altitude=13000&tas=132&wind=351/"
     "8&windref=true&variation=6W&arrive=187&heading=204&rule=still-air&time=1:10&timing="
     "groundspeed&laps=1",
     "direct", 204, 2.22802475021, 0.935250247022, 273.826805746, 1, 663.773218723},
    {"inbound=47&turns=right&altitude=13000&ias=135&wind=208/25&arrive=62&entry=parallel&laps=2",
     "inbound=47&turns=right&altitude=13000&ias=135&wind=208/25&arrive=62&entry=parallel&laps=2",
     "parallel", 231.883098683, 3.01588696584, -0.583846624294, 130.680794194, 2, 860.254832905},
    {"inbound=45&turns=left&altitude=9000&tas=182&wind=58/"
     "17&arrive=178&leg=4nm&rule=still-air&timer=level&bank=25&isa=+12&laps=1",
     "inbound=45&leg=4nm&altitude=9000&tas=182&isa=+12&bank=25&wind=58/"
     "17&arrive=178&rule=still-air&timer=level&laps=1",
     "parallel", 225, 1.68729251319, 3.81099408402, 150.193080779, 1, 530.914718377},
    {"inbound=301&turns=left&altitude=0&ias=95&wind=217/8&arrive=69&heading=118&time=1:10&laps=2",
     "inbound=301&altitude=0&ias=95&wind=217/8&arrive=69&heading=118&time=1:10&laps=2", "parallel",
     118, 0.400367418809, 1.63746201515, 139.398632153, 2, 704.69967052},
    {"inbound=140&turns=right&altitude=0&ias=164&wind=103/"
     "19&arrive=97&rule=still-air&heading=57&time=1:10&timing=groundspeed&laps=3",
     "inbound=140&turns=right&altitude=0&ias=164&wind=103/"
     "19&arrive=97&heading=57&rule=still-air&time=1:10&timing=groundspeed&laps=3",
     "direct", 57, -2.74555255896, -0.0589102895355, 202.769361257, 3, 1050.41414532},
    {"inbound=104&turns=right&altitude=14000&tas=142&wind=171/"
     "5&arrive=114&bank=25&isa=+12&multiple=2.5&intercept=45&laps=2",
     "inbound=104&turns=right&altitude=14000&tas=142&isa=+12&bank=25&wind=171/"
     "5&arrive=114&multiple=2.5&intercept=45&laps=2",
     "direct", 279.356489262, -0.0495750962065, 2.58305147318, 176.721725484, 2, 711.031820667},
    {"inbound=244&turns=right&altitude=1000&ias=179&wind=260/"
     "22&arrive=96&leg=1:30&rule=drift-once&heading=276&time=1:10&bank=25&isa=+12&laps=3",
     "inbound=244&turns=right&leg=1:30&altitude=1000&ias=179&isa=+12&bank=25&wind=260/"
     "22&arrive=96&heading=276&time=1:10&laps=3",
     "parallel", 276, -1.77912893574, -1.92853965558, 91.8818801912, 3, 1254.06041542},
};

bool near(double a, double b) { return std::abs(a - b) <= 1e-9 * (1.0 + std::abs(b)); }

}  // namespace

TEST_CASE("golden links: read, written and flown as when they were first published",
          "[link][golden]") {
  for (const Golden& g : kGolden) {
    INFO(g.link);
    const ParsedLink p = parse_link(g.link);
    CHECK(p.problems.empty());
    CHECK(write_link(p.scenario) == g.canonical);
    CHECK(parse_link(g.canonical).scenario == p.scenario);
    const WorkedCase c = work_out(p.scenario);
    CHECK(name_of(c.setup.entry) == g.entry);
    CHECK(near(c.flown.plan.heading_deg, g.heading_deg));
    REQUIRE(c.flown.rollout.exists);
    CHECK(near(c.flown.rollout.cross_nm, g.cross_nm));
    CHECK(near(c.flown.rollout.to_go_nm, g.to_go_nm));
    CHECK(near(c.flown.rollout.at_s, g.at_s));
    CHECK(c.flown.lap_count == g.laps);
    CHECK(near(c.flown.track.end_s(), g.end_s));
  }
}
