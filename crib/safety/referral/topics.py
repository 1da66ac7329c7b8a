"""What is referred and by which words. Common practice, no source.

Singular words stand for their plurals, and a word written as one for the same written apart or with a hyphen. In doubt
a word refers; one that is harmless in some company names that company.
"""

from __future__ import annotations

from crib.safety.referral.signs import Topic, alone, loan, pair, weak, words

_SMALL = words("""model scalemodel toy dollhouse doll diorama miniatures clock watch orrery automaton ngauge hogauge
             oogauge zgauge tinplate museum display""")
"""What is made small, shows the time or is looked at: no one rides on it, hangs from it or stands before it."""

_LABEL = words("label nameplate plaque badge emblem ornament decal numberplate licenseplate")
"""What does no work, whatever it is on."""

_CARRIED = "child children kid baby toddler infant passenger people person rider ride rideon riding sitting adult "\
           "elderly grandma grandpa disabled nephew niece grandchild grandchildren"
"""Who may be carried after all."""

_NO_TOY = words(_CARRIED + " seat turbine boiler steam propeller")

PRESSURE = Topic("pressure parts, steam, hydraulics and gas", (
    alone("""pressurevessel pressurecooker pressurised pressurized pressurising hydraulic* pneumatic* boiler* propane
             butane acetylene oxygen hydrogen compressedair compressor autoclave scuba refrigerant* freon
             airconditioner airconditioning paintball steamchest steamboiler safetyvalve reliefvalve burstingdisc
             rupturedisc injector fuelrail fuelline fuelpump fueltank fuelfitting fuelcell fireextinguisher gasbottle
             gascylinder gasfitting gasregulator accumulator"""),
    weak("pressur*", "pressurepad padpressure pressureangle pressurefoot fingerpressure handpressure "
         "springpressure lightpressure pressurebar pressureroller pressurescrew", spelt=True),
    weak("steam*", "steamiron steampunk"),
    weak("gas gases gasses lpg cng co2 n2o nitrous carbondioxide", "nogas"),
    pair("regulator", "weld* gas air oxygen scuba diving torch cutting bottle cylinder co2 argon"),
    pair("bottle cylinder tank receiver reservoir keg", "air gas co2 nitrogen argon helium diver compressed"),
    pair("fuel petrol gasoline diesel kerosene", "line pump rail tank fitting cap valve filter pipe union tap cock "
         "hose nozzle injection"),
    pair("diving diver dive", "valve helmet bell gear equipment lamp housing knife tank suit board"),
    pair("valve manifold flange", "highpressure vacuumvessel reactor pipeline chemical"),
    alone("""pressurewasher expansionvessel waterheater hotwatercylinder calorifier sandblast* nailgun airline
             airhose airbrake extinguisher siphon aqualung blowtorch steamtrap vacuumchamber heatexchanger penstock"""),
    pair("burner stove torch heater", "gas oil propane camping"),
    pair("keg", "beer tap"),
    pair("cylinder", "hotwater"),
    loan("druckluft kessel* druckkessel druckbehalter hydraulik chaudiere caldera presion pression vapeur dampf gaz"),
))

LIFTING = Topic("lifting gear", (
    alone("""hoist* hoisting crane eyebolt eyenut ringbolt shackle rigging winch* chainblock chainfall chainhoist
             blockandtackle padeye lugeye lifting liftingeye loadhook comealong forklift elevator derrick davit
             gantry cherrypicker scissorlift carlift stairlift enginestand enginehoist axlestand jackstand
             liftingbeam spreaderbeam turnbuckle uplift monorail bosunschair"""),
    weak("sling", "slingbag camera"),
    weak("lift lifted lifter elevating", """lid liftoff liftout paper pen needle latch sash valve cam tappet cutter
             tool tonearm record typewriter facelift card"""),
    weak("jack jacking", """planer machinist toolmaker surfaceplate levelling leveling jackshaft jackplane phone
             headphone audio guitar microphone loom harpsichord piano jackrabbit lantern jackknife"""),
    pair("hook clevis swivel snaphook", """chain engine motor safety load crane tow towing cargo hammock heavy swing
         punch boxing ceiling rope weight pulling recovery"""),
    pair("stand trestle", "axle engine motor motorcycle motorbike gearbox vehicle car"),
    pair("trolley beam runway rail", "overhead engine tackle"),
    pair("pawl ratchet drum", "chain cable lever"),
    pair("counterweight pulley sheave", "cable rope people load",
         "curtain blind laundry clothes flag sash window clock"),
    pair("bucket boom grapple quickhitch", "loader digger excavator tractor"),
    pair("tackle", "block rope engine"),
    pair("hang hanging suspend suspended suspending",
         "load engine motor heavy overhead above ceiling weight piano head " + _CARRIED),
    pair("hold holding support supporting carry carrying raise raising overhead suspended",
         "engine car truck vehicle overhead worker load loads " + _CARRIED),
    alone("""hookblock engineleveller engineleveler snatchblock pulleyblock ratchetstrap cargostrap tiedown wirerope
             loadpin taillift dumbwaiter cablecar gondola funicular telehandler spreaderbar boatlift lashing"""),
    loan("aufzug aufzuge ascenseur levage treuil montacargas cabrestante hebezeug hebehaken hijsen grua kran*"),
), _SMALL, _NO_TOY)

VEHICLES = Topic("brakes, steering, suspension and what carries people on the road", (
    alone("""steer* steering kingpin stubaxle controlarm balljoint tierod trackrod seatbelt rollcage rollbar wheelhub
             wheelstud wheelnut wheelspacer wheelbearing towbar towhook towball towing tow hitch* driveshaft
             propshaft halfshaft draglink pitmanarm wishbone motorcycle motorbike bicycle bike moped pram pushchair
             stroller buggy gokart kart scooter skateboard automobile automotive vehicle* atv quadbike tractor
             excavator backhoe bulldozer lorry lorries handbrake brakedisc brakedrum brakecaliper brakepad brakeline
             brakepedal suspension bogie passenger rudder submarine submersible keelbolt outboard caravan rickshaw
             towrope handlebar"""),
    weak("brake braked braking brakeshoe brakelever", """pressbrake brakepress sheetmetal sheet fold folds folding
             folder bend bends bending bender finger box pan leaf spinningwheel reel"""),
    weak("car truck bus van train trailer locomotive railway railroad tram auto", """busbar gear gears geared gearing
             trainofgears wheeltrain trainofwheels movement reduction handtruck sacktruck slotcar radio"""),
    pair("car truck bus train locomotive railway railroad trailer toy engine", _CARRIED + " seat"),
    pair("axle wheel hub", "cart wagon carriage pony tractor trike tricycle quad soapbox"),
    pair("throttle accelerator clutch gearshift pedal", "car engine motor boat foot"),
    weak("boat yacht sailboat sailing dinghy kayak canoe windlass", "gravyboat"),
    pair("fork stem crank saddle seatpost", "cycle cycling front"),
    alone("""leafspring coilspring shockabsorber antirollbar swaybar airbag roofrack lugnut snowmobile jetski
             golfcart tandem hubcarrier idlerarm derailleur freehub bottombracket quickrelease skewer dropout
             fifthwheel kingbolt steeringwheel clutchpedal acceleratorpedal gaspedal undercarriage roadwheel"""),
    weak("tyre tire", "tireless"),
    weak("pedal", "sewing guitar piano organ harp potter spinning drum"),
    pair("pickup", "truck spring axle tailgate bed"),
    loan("vehiculo fahrrad lenkung anhanger fahrzeug velo voiture automobil brems* brak frein freno"),
), _SMALL, _NO_TOY)

AIRCRAFT = Topic("aircraft", (
    alone("""aircraft airplane aeroplane helicopter aviation aerospace airframe ultralight microlight gyrocopter
             autogyro paraglid* hangglider paramotor parachute airworthy airworthiness rotorhub propeller prophub
             propblade propbolt propspinner controlhorn aileron wingspar fuselage gyroplane sailplane kitplane"""),
    weak("flight glider", "stair dart arrow auger"),
    pair("plane wing", "kit control light sport homebuilt stunt spar strut flap bellcrank fly flying"),
    pair("prop", "hub blade spinner bolt flange extension engine"),
    pair("drone quadcopter", "prop rotor arm motor blade"),
    pair("balloon", "hotair gondola basket burner"),
    alone("""tailrotor mainrotor landinggear pitchlink trimtab wingstrut cockpit spacecraft rocketmotor uav skydiv*
             wingsuit kitesurf* kitebuggy"""),
    loan("flugzeug avion aeronef hubschrauber"),
), _SMALL, _NO_TOY)

CARRYING = Topic("what people climb, hang, ride or stand on", (
    alone("""ladder scaffold* belay* carabiner karabiner fallarrest fallprotection zipline zipwire playground
             swingset treeswing ropeswing tyreswing tireswing porchswing swingseat hammock seesaw trapeze
             amusementride fairground rollercoaster ferriswheel merrygoround manriding handrail guardrail banister
             balustrade balcony balconies fireescape treehouse highchair gym gymnast* gymnasium barbell dumbbell
             kettlebell trampoline treadmill exercise* pullupbar chinupbar squatrack ski skibinding skiing snowboard
             rollerskate iceskate grabrail grabbar bunkbed stepstool stirrup abseil* rappel* piton crampon iceaxe
             bathlift railing grandstand bleacher climbingwall climbingframe hangboard circus cot babygate stairgate
             babyseat unicycle"""),
    weak("climb climber climbing", "climbmill climbmilling climbmilled climbcut climbcutting climbpass climbside "
         "climbwall"),
    weak("harness harnesses", "wire wiring loom cable"),
    pair("swing rocker cradle cot crib gate seat chair bench stool bunk carrier bed latch walker",
         "child children kid baby toddler infant nursery school nephew niece grandchild grandchildren"),
    pair("swing", "seat set porch tree tyre tire garden rope hanger chain hook bolt frame pivot"),
    pair("bracket anchor bolt beam plate joint hinge fixing strut", "deck roof awning loft mezzanine "
         "gallery"),
    pair("ride rideon riding", "amusement theme park toy car train pony carousel"),
    pair("saddle girth bit", "horse pony"),
    pair("weight bench rack pulley cable", "training squat fitness bodybuilding"),
    pair("rope bolt anchor hold", "rock caving caver mountaineering highline slackline"),
    pair("stand stands standing sit sits sitting stood", _CARRIED + " man worker dancer performer"),
    alone("""treestand deerstand cableway lightingtruss stagetruss lightingrig stair staircase amusement
             weightmachine benchpress chandelier dancepole safetynet"""),
    pair("handle seat support stool step bench walker rail chair",
         "bath shower toilet elderly grandma grandpa disabled"),
    loan("leiter echelle balancoire gelander schaukel klettern columpio escalera barandilla gardecorps"),
), _SMALL, _NO_TOY)

MEDICAL = Topic("medical parts", (
    alone("""medical* medic medicine surgical surgery surgeon implant* dental dentist denture prosthe* orthop*
             orthotic wheelchair patient ventilator hospital lifesupport insulin infusionpump syringe catheter
             pacemaker dialysis defibrillator stent respirator anaesthe* anesthe* scalpel forceps artificiallimb
             artificialleg artificialhip kneebrace legbrace boneplate bonescrew cpap veterinary inhaler endoscope"""),
    pair("crutch splint brace", "leg knee arm elbow ankle neck walking person hip"),
    alone("infusion"),
    pair("pump", "blood heart feeding drug"),
    pair("cane stick", "blind walking"),
    pair("hip knee bone limb tooth heart", "joint replacement artificial false transplant"),
    pair("hypodermic needle", "injection biopsy"),
    alone("""hearingaid stethoscope stretcher gurney nebulizer tourniquet incubator lung mri tattoo walkingstick
             walkingframe zimmerframe"""),
    loan("medizin* chirurg* rollstuhl fauteuilroulant protese silladeruedas zahnarzt"),
))

FIREARMS = Topic("firearm pressure parts and weapons", (
    alone("""firearm* rifle pistol shotgun revolver carbine handgun breech* boltface boltcarrier muzzle suppressor
             ammunition ammo upperreceiver lowerreceiver cannon explosive detonator firework pyrotechnic blackpowder
             chamberreamer headspace firingpin airgun airrifle airpistol crossbow slingshot grenade bomb harpoon
             speargun machinegun sear triggersear ar15 ak47 gunsmith gunbarrel musket flintlock silencer bullet
             switchblade weapon missile gunpowder"""),
    weak("gun", """gunmetal metal heatgun gluegun heat glue grease caulk caulking staple solder spray watergun toygun
             capgun lightgun radargun foamgun"""),
    weak("receiver", "gauge gage radio audio stereo telephone phone hifi signal satellite television tv"),
    weak("trigger", "clamp spray camera shutter timer microphone switch drill hose sequence"),
    pair("lower upper", "80 80percent percent stripped ar eightypercent"),
    pair("barrel bore chamber bolt magazine", "air shooting 22lr calibre caliber 9mm"),
    pair("bow limb riser", "archery hunting compound longbow recurve"),
    pair("rocket", "motor engine nozzle propellant solid"),
    alone("""archery sniper picatinny gunstock holster airsoft reloadingpress reloadingdie tracer"""),
    pair("scope", "ring mount rail base"),
    pair("arrow", "bow rest nock quiver"),
    pair("cartridge", "brass bullet calibre caliber case"),
    loan("gewehr waffe fusil escopeta pistola pistole"),
))

ELECTRICAL = Topic("earth studs and electrical safety", (
    alone("""earthing groundstud groundlug groundterminal groundstrap groundrod grounding protectiveearth
             electricalsafety highvoltage circuitbreaker switchgear fuseholder fusebox fuselink mainsplug mainssocket
             mainsvoltage"""),
    weak("earth", "earthmover"),
    weak("mains", "mainspring"),
    weak("fuse fused", "fusee"),
    pair("stud lug terminal strap rod", "ground grounded"),
    pair("plug socket terminal insulator conductor", "live voltage 120v 110v 230v 240v 400v 415v 480v kv substation"),
    alone("""distributionboard consumerunit switchboard groundwire groundclamp earthwire powerline lightningconductor
             lightningrod electricfence"""),
    weak("isolator", "vibration"),
    pair("holder socket plug pin clamp wire lamp switch busbar box",
         "mains 110v 120v 220v 230v 240v 400v 415v 480v live"),
    loan("schutzleiter erdung miseaterre"),
), _LABEL)

MACHINES = Topic("guards and what turns with much energy", (
    alone("""grindingwheel grindingflange grindingspindle grinderspindle anglegrinder abrasivewheel wheelflange
             wheelguard cutoffwheel guarding machineguard flywheel turbine turbo turbocharger supercharger conrod
             connectingrod crankshaft sawblade circularsaw tablesaw chainsaw benchgrinder lawnmower mower mowerblade
             woodchipper shredder centrifug* ptoshaft ptoyoke pto powertakeoff driveline logsplitter hammermill
             interlock emergencystop estop lightcurtain deadmanswitch deadmanshandle strimmer brushcutter
             hedgetrimmer"""),
    weak("guard", "splash splashguard dust mudguard guardband triggerguard drip"),
    pair("grinder grinding", "wheel flange spindle arbor guard disc"),
    pair("saw sawmill bandsaw", "arbor spindle flange guard pulley shaft wheel",
         "slitting milling hacksaw coping jeweller fretsaw handsaw"),
    pair("rotor spindle wheel disc", "highspeed 20000rpm 30000rpm"),
    pair("shield cover", "blade saw belt chain nip chuck"),
    pair("rod piston crank", "con connecting engine", "model"),
    pair("blade", "fan windturbine chipper"),
    pair("safety", "hook catch valve switch clutch interlock latch chain device stop critical bolt line cage lock "
         "release"),
    alone("""propeller cutterblock cutterhead baler combineharvester thresher windmill windturbine meatslicer
             garagedoor torsionspring springcompressor flail"""),
    pair("spindle arbor", "router shaper moulder woodworking"),
    loan("schleifscheibe schwungrad"),
), _LABEL)

LIFE = Topic("what lives depend on", (
    alone("""safetycritical lifesafety nuclear radioactive firesprinkler sprinklerhead firealarm smokealarm
             smokedetector firehose hydrant firedoor lifeboat lifejacket lifebuoy lifebelt liferaft rescue* gasmask
             evacuation panicbar emergencyexit firefight* reactor xray lifeline emergencybrake"""),
    weak("sprinkler", "garden lawn irrigation watering"),
    pair("fire", "escape extinguisher alarm hose suppression pump brigade engine"),
    pair("emergency", "release brake stop exit shutoff valve"),
    alone("""helmet bulletproof bodyarmour bodyarmor riotshield lifevest buoyancy lockout faceshield gasdetector
             avalanche"""),
))

TOPICS = (PRESSURE, LIFTING, VEHICLES, AIRCRAFT, CARRYING, MEDICAL, FIREARMS, ELECTRICAL, MACHINES, LIFE)
