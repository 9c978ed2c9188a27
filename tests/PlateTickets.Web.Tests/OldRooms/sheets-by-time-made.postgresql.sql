-- A room of an earlier version (its schema is that of the migration SheetsByTimeMade with GuardsAndWords), as that version's program made and filled it: the demo's days, 8 orders.
INSERT INTO public."AuditEntries" ("Id", "AtUtc", "By", "Record", "Key", "Field", "From", "To", "Hash") VALUES
	(1, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Site', 'Harbour Lane plate room', '(new)', NULL, NULL, '\x9c42561ccb611660fad3915ad1792a1af9eaf969f7cf3e985ad4d9b1bbfd37eb'),
	(2, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'ShiftEntry', 'Early shift', '(new)', NULL, NULL, '\x9c0e400d2632eda21023d7485e6fa44f21578826c2c8dfa97e74ea8df0e66c11'),
	(3, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'ShiftEntry', 'Late shift', '(new)', NULL, NULL, '\x1877b70b5ebf8954791240b804a1a7c044e98753d32ccdb35e101e080c7046f5'),
	(4, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Frame 1', '(new)', NULL, NULL, '\xbbb916cf2b66f777663086f76b07ff43d21d7271578fd46fdd94c36c7394f333'),
	(5, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Frame 2', '(new)', NULL, NULL, '\x5025aaf4c1e1a7126543fa109864be1401ce464f21775121c7f2e4bd1a05d8f9'),
	(6, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Imager A', '(new)', NULL, NULL, '\xa171eb0a3223d7af2679d32dfb2aeafcccfbaab65c4582eeab8c11846fc9e4d4'),
	(7, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Imager B', '(new)', NULL, NULL, '\xea6cd17d590f6c99c48b980caefd38959a9e24ca24427eee76401c2aad3cfb0b'),
	(8, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Line washer', '(new)', NULL, NULL, '\x8654cd6a3a1bd142a46d8505b6b1c22a96351a5429f46a982ed7668e3d913f10'),
	(9, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Water washer', '(new)', NULL, NULL, '\xd36287bb3ab1f2755632ef9a4216763c71829acb61221368c80884db7ec5d912'),
	(10, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Thermal unit', '(new)', NULL, NULL, '\x2a6a0e956755741b8fa16276339c1316215286eb8dd5cf2417ef666be8ffa256'),
	(11, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Dryer', '(new)', NULL, NULL, '\x6efeb85d121d6514d380f7a16938f59a07b2586e6ecdc89ed078fbcf8fada6a9'),
	(12, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Finisher', '(new)', NULL, NULL, '\xc49440a7eaf7704e8aef8e7f5b59761274c6f1f70fab171854a371643c53cc6a'),
	(13, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Equipment', 'Cutting table', '(new)', NULL, NULL, '\x9991724ad069ddb458ec3f32a5d26594f01f61e05fc4059ed3f7165f9536304b'),
	(14, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Material', 'Aster 170', '(new)', NULL, NULL, '\x0a816ca78c32d6e95882a251b46243aa899fc2e85e33ac308a39533957e56322'),
	(15, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Material', 'Birch 114', '(new)', NULL, NULL, '\x8d5d291840d90f1554dc111c453663095c242ef0b913c14b28bb0de19a4dd1d4'),
	(16, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Material', 'Corvid 284', '(new)', NULL, NULL, '\x0efda00b31985cf604fd579dcf262de267d3f8bde5d1c3dea5864f9e6c57732b'),
	(17, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'RecipeRevision', 'material 1, revision 1', '(new)', NULL, NULL, '\x3eaedcb3f5afc16a114ed70e2be1740b39f0c5cc131300b96a649c608204644b'),
	(18, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'RecipeRevision', 'material 1, revision 2', '(new)', NULL, NULL, '\x6f4c036492f0b22a046b61dac13789359ffc8f73097001720b5f1a8b77f151cd'),
	(19, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'RecipeRevision', 'material 2, revision 1', '(new)', NULL, NULL, '\x671daa1b089732c16802be2e8a4716a3847971548b517d472d3b1c229e91aadb'),
	(20, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'RecipeRevision', 'material 2, revision 2', '(new)', NULL, NULL, '\x2f8a410d4b6f0fa497f437dddd222927b660f19a6939fe66584a663ccf4fe233'),
	(21, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'RecipeRevision', 'material 3, revision 1', '(new)', NULL, NULL, '\x3f71b991d06f334da332891c73f8aa7e4a3e938af054228c13a5ee7475604178'),
	(22, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'RecipeRevision', 'material 3, revision 2', '(new)', NULL, NULL, '\xe3d183b43302b62bf9721db098fc5c92f909d305c8d5d0174232c6dff5acce2f'),
	(23, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockSize', 'Aster 170, 900 × 1200 mm', '(new)', NULL, NULL, '\xc5d8a6df860800d8e372083fcc89db11e47e7628e8ade64240320ce0b9666b13'),
	(24, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2331', '(new)', NULL, NULL, '\x49955f069c9fb217489e12629051261e890fe1d37ae9c08155e71721b19b7955'),
	(25, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2334', '(new)', NULL, NULL, '\xc4032b21f83681eb22953cc069aa3aa64eb9eb6cb17c1d50496f42548660f65a'),
	(26, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockSize', 'Aster 170, 600 × 900 mm', '(new)', NULL, NULL, '\x19be1a1328528806d64cf788d98e066b67b3f83e9600accafa4562015735c652'),
	(27, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2341', '(new)', NULL, NULL, '\x87085dbf105e05fcdce527bca5ecc6a28651f9eb0edead8148d110c21bbc4e56'),
	(28, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2344', '(new)', NULL, NULL, '\x2760f675cc08180ba2c23f98addb9937e9da9c41bbf86d08dbca64fb763cddcf'),
	(29, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockSize', 'Birch 114, 900 × 1200 mm', '(new)', NULL, NULL, '\x0c33992bab503efe8a7d12ab36ebda42280730e1e7ac97beaeb3f82220153691'),
	(30, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2431', '(new)', NULL, NULL, '\xa8e20bab7e7fc0ae4a47ebefb108a4a9aa60c604e21ee1fbe97a4c11c4fd10aa'),
	(31, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2434', '(new)', NULL, NULL, '\xccfb1adac1b4c00829075a689c1e34a7536c86891026d8b5d9e68cad74193012'),
	(32, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockSize', 'Birch 114, 640 × 760 mm', '(new)', NULL, NULL, '\xa658735c3fbc4da3d0bc452fc2e83b03e65ce54020a2d3bb92a6330a93058a78'),
	(33, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2441', '(new)', NULL, NULL, '\x17b330fc55ac41d12e1c4c91c99a94aa56261bb91850d3f403ffd42185499eda'),
	(34, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2444', '(new)', NULL, NULL, '\x45ab8d21fb99b54794aed6f216521c6b4d3aa378d17f664372e8dec57c7c6451'),
	(35, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockSize', 'Corvid 284, 1060 × 1520 mm', '(new)', NULL, NULL, '\x895a5c308f2a394fc6749d6289b1c519b12fc8390accf95371c2b24091ad664b'),
	(36, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2531', '(new)', NULL, NULL, '\xf7734cd22902cb2c23eb8ccce6428032f2253aaa14f8d2145dd3268cda8cabed'),
	(37, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2534', '(new)', NULL, NULL, '\xff448441a65f320e549d1d4c20870947ed4f56ad2b946ad093ecea1bd622a1dc'),
	(38, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockSize', 'Corvid 284, 900 × 1200 mm', '(new)', NULL, NULL, '\x0490dd25f54541e87eb96e1872e53271094e859c0bbf914dc2bc1d551ca91b2d'),
	(39, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2541', '(new)', NULL, NULL, '\xb2b7961c5239d760d4a4a69213f4df40cf8bfdaece9901f4642d9b2e0d5e2549'),
	(40, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'StockLot', 'lot L-2544', '(new)', NULL, NULL, '\x79fa07547170bc5bbea06a9bff939181bcd77129b9f00bd1283e316649fb1f08'),
	(41, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Press', 'Press 1, wide film', '(new)', NULL, NULL, '\xac60f20d2cb27dadba7694e34f2f5a77ed58e73267ae0da38dd18457602e6add'),
	(42, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Cylinder', 'Sleeve 400', '(new)', NULL, NULL, '\x724736e29b78167d69c1c9de4bbf00dc959c6cdb49cd98b28b37399fa55bce96'),
	(43, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Cylinder', 'Sleeve 480', '(new)', NULL, NULL, '\xd26e861da6d66d65e4cb17819bce67180947660109ea3b574d8b16d20ac1b712'),
	(44, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Cylinder', 'Sleeve 560', '(new)', NULL, NULL, '\x6d728af5f82444598f02767945211baffeb8aa0b12bf017871bde3b10b72b2c7'),
	(45, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Press', 'Press 2, labels', '(new)', NULL, NULL, '\x1fff84a507f19e0cdab548471773e697ce9c85b504325959d0797a506aeadc1a'),
	(46, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Cylinder', '96 teeth, 1/8 in', '(new)', NULL, NULL, '\x5a53334b442aec860be516cff0be8c696987ce6567d6174f5786d8f28106fef5'),
	(47, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Cylinder', '120 teeth, 1/8 in', '(new)', NULL, NULL, '\x8bee5aab1f86155ddcdef639f90f3b9488705e830b86b4c827b7fbf6d99075da'),
	(48, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Press', 'Press 3, board', '(new)', NULL, NULL, '\x1a91f4ecacab0297ee3315a55f1a5d34c45425e826c0829a63eb687b93ca670b'),
	(49, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Cylinder', 'Cylinder 1000', '(new)', NULL, NULL, '\x03bf6ea9c4db8d2514dd39120532709e38e18de192a172c38391fcbc287fbfc6'),
	(50, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Cylinder', 'Cylinder 720', '(new)', NULL, NULL, '\x59e4a3847d75b4901c0acfdd444eb7109e64178cd744e9205ca0d92d91ccbb7d');
INSERT INTO public."AuditEntries" ("Id", "AtUtc", "By", "Record", "Key", "Field", "From", "To", "Hash") VALUES
	(51, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Bramblewood Bakery', '(new)', NULL, NULL, '\x9956817a16710894161d92c2bce51d269c3852654781c75e334c1ead01839c06'),
	(52, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Kestrel Point Coffee', '(new)', NULL, NULL, '\xbb58f17ec2d97d1c942ecf08439d34d1ae9c23756901a5a6c3530b66bfdd7765'),
	(53, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Old Quarry Spring Water', '(new)', NULL, NULL, '\x1f05f9efa3a1cb8a4340e8a22641cef97cadca8ce28c8e3434a5e9f47b2da1d9'),
	(54, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Marigold & Finch Tea', '(new)', NULL, NULL, '\x713e264eedb3fdd02dfad919305a34c8fd899ee90c6728ef1098930b8ed68da8'),
	(55, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Northmere Dairy', '(new)', NULL, NULL, '\x70c9765ae4ba80e27923e39ca0fdf4be555f716f8fb281bc581e00eb7fccff88'),
	(56, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Pillow Fort Snacks', '(new)', NULL, NULL, '\x4aaf7e1e290bef8a55e5649637fdda79c17ccf04b1799a6b72f61a951fe6b6ee'),
	(57, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Saltgrass Seafood', '(new)', NULL, NULL, '\x52e77609fb249dbe65135fc5c450f7e2f70b291db178a50dcd43d5c9ff9618e3'),
	(58, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Tin Lantern Pet Food', '(new)', NULL, NULL, '\xb6e80de994659af553c50dacc97707d23089697838fad54f3d0885dd4f67d9f6'),
	(59, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Juniper Row Soaps', '(new)', NULL, NULL, '\xfdc7e1b3014625d1c2cdcd0b31040ee5dd5d182149489f4ded97764b923cc194'),
	(60, '2026-11-25 08:00:03.758124+00', 'PlateTickets', 'Customer', 'Copper Ladle Preserves', '(new)', NULL, NULL, '\x484f0c3514279b3f3e5066ecc384e67c56b9b84e858d938ac61061cafb00102f'),
	(61, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\x905098f7b9d948c2ad8b4bcb652c5f1855779fba5d36905e5937e47c83bfa149'),
	(62, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\x6356d7c5e1bfda60be6dc6560fa555df1315da359e30f0fa4958298e399bad17'),
	(63, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\xcab5168476ae291d15626b072a8bce2ff9348aa0544e980a9b3e72b03a973649'),
	(64, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\x33a751d044fb359074c930c03ecb1bd8e847fd102d5d45dc020134c25fd9630d'),
	(65, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\x283e6e18061c1df5e5692837e7a59659ec08630a0c537a44aac47e000162b855'),
	(66, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\xa9f4d0dc8270f997875f3aec69b6c35b841f88f0c0b8a58b04dd00d3a34a416c'),
	(67, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\xe885bee04f504d467401121d8afa18291c731b992474555656eae502d01c4a1c'),
	(68, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\x1d5ada2add55e7f2379ecafea8789f6b25e4c1e1dd8c5e704026a8149d4e4fb7'),
	(69, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\x5e4e37ffdc9ad3668e03f2f68aae43e1dbfbaa41f8b1ed0d3e59694c6353c5e6'),
	(70, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\xb0bd0cf5f2d37062cacf3d8a760501b9431d1c7ebb48285dbbe914998a984e9b'),
	(71, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\xf9cd07fe8c7ae6a934b8dc77fe74f07553ba02be575e6f5aa486b19a841a3d73'),
	(72, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\x5e08d9ed9a32b61bb82d7f86197bcb6a8ea47bb8c491597c170dcc0fcc38c13f'),
	(73, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\x91a84a14fc84397291bf44cb863edafa139cf4ade0e793968f3a5fa5599069fc'),
	(74, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\x86f719bc37af73c903619fed705ed8e93cb83015c9f7e1222a44b71ea3a15fbf'),
	(75, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\x5f984880b42b68dfd9c5b2a33ea3e59f7cb401aaf79cbd67f2d623e75f3e8e79'),
	(76, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\x6b4d32490991460b75cb5364a1a189d23bda72d8645feb96c90ec5015ef1d00a'),
	(77, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\x4a1064a199ca91e8ec14ca3a8131b6a642294d6748825ced7e6276f28d4c831d'),
	(78, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\xde70b110096a2cafd10c256effe764a3d63dd8a217be58a27d29a11ccccdfdc3'),
	(79, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Face lamps', '(new)', NULL, NULL, '\x2cea9c5e6b14fe6082d72695d201cfe11b4b2f81a6084a3b2103642d5fe2bb21'),
	(80, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 2, Back lamps', '(new)', NULL, NULL, '\x77785c3fbdc0437ae7d2abcf1516e466dac51e5c44f7ae207aaca87fb3602bf4'),
	(81, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\x5017da67033d01eec56c96ccd85646fd800690fb0370bf5520dc5d9f6055ff9a'),
	(82, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\xda587c1f5bb063d7b8114ee8d5e97bdea25201bbf76c783f468dd749c90a8260'),
	(83, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\xac16cbfb2837f0d54c38762f7337cc6dfa009ee31d1d6dc5756344efc59605c0'),
	(84, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\xda769994cd09f76baabbace36cdd03ab760a00b4c361b94f8aa405be349b8ff0'),
	(85, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\xa35d290efe6ea4277a01bdb41da447f0f1de3f1512adeb412c9d2645d789327f'),
	(86, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\x21180a9ad6a06f5b6f1be0bad8145de90f99eb0d35ff245ad0dacff8c892cf00'),
	(87, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\x46f93246eacae63c14eb6e348c308a15d61f1cc3aaf7a09d0912fd127b82f605'),
	(88, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\x6fb2c815c1eaff5d6748309d2fb797fc015897974eabbc6e66d65dc6773741b4'),
	(89, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\x7507a3157dffed9989dab7c6fea80f0bd7b590d2b67240c60e78f8da53803bbb'),
	(90, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\x2ed345f7e322fa41a504b5f97e501d6f4368d5646f46845da29efbaa8b28b175'),
	(91, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\x5cd97dd6f3755f71b96a5cde1045b5ea11f20afff6185d72d7426e00a02a2805'),
	(92, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\x866fc41351d7fd269efae89df47fb90929e491ed55b32bb7d78ddf9a20472105'),
	(93, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\x3f9dc519fe214ec10c585ac780fc5e2f9eb4ad9e9d8fde17a02b319dd943e9ee'),
	(94, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\x5c5a7d54b673b07293d9d65fb93bd03b7cfa34d73d9e44b8ad6e5e4ab620eb49'),
	(95, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\x2c87865f5ce382c7bcf5173d8790fc9852921745289bfee794f5b4baa6c5f852'),
	(96, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\xa85dbe283a2c91a0a15cb51c5c33a0478d0f10a5c4b76405d52c3df7a0c84026'),
	(97, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\x1f40cd3ec3b573f3e0925b70f47863e6d91245f30f6daf8550d9f5a1b8e1ccd7'),
	(98, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\xaf9208e9589acf28e6163e136822520693a935934f6127f74bd899ecaf175fc7'),
	(99, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Face lamps', '(new)', NULL, NULL, '\x8672f56a4436075b58f5f16bac3a84cb307724a65a3ff044525c66e33b4b14f4'),
	(100, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'LampReadingEntry', 'equipment 1, Back lamps', '(new)', NULL, NULL, '\xc1f134febb5bd57555b86b302f743fe868c4a15965b5a34d8288842bf26a6402');
INSERT INTO public."AuditEntries" ("Id", "AtUtc", "By", "Record", "Key", "Field", "From", "To", "Hash") VALUES
	(101, '2026-11-25 08:00:03.907475+00', 'PlateTickets', 'StepTestEntry', 'material 1, equipment 1, 2026-09-10', '(new)', NULL, NULL, '\xd8bf8a76ba1b4c37d543d985f4aa27d0f0a63c197cc3c86b3c070bd04ddd3aa7'),
	(102, '2026-11-25 08:00:04.824714+00', 'Demo CSR', 'Order', 'T1VBP1C65', '(new)', NULL, NULL, '\xa228158bec3badd679461e29f88480c5092b7b949c642acaeb2a7959bc0d292b'),
	(103, '2026-11-25 08:00:04.824714+00', 'Demo CSR', 'Ticket', 'T1VBP1C65', '(new)', NULL, NULL, '\xb0ef3251a54d929ee940fb8b4c11415bc6fa934df14648780bb60168ae333157'),
	(104, '2026-11-25 08:00:04.824714+00', 'Demo CSR', 'Separation', 'demo-01(Cyan).tif', '(new)', NULL, NULL, '\x410c268fa513b10cacb7daf98d213e08c14f2ea5b2bdeeeaa849e6f52c528d13'),
	(105, '2026-11-25 08:00:04.824714+00', 'Demo CSR', 'Separation', 'demo-01(Magenta).tif', '(new)', NULL, NULL, '\xd6fbc99cdfb4ec31697bd1fbc7a072089c82d484a4c5896f67ddaff4aec99461'),
	(106, '2026-11-25 08:00:04.824714+00', 'Demo CSR', 'Separation', 'demo-01(Yellow).tif', '(new)', NULL, NULL, '\xaced2a785cf2317f65115328e0a0f464a8e5875246041934ef0fd5c648670618'),
	(107, '2026-11-25 08:00:04.824714+00', 'Demo CSR', 'Separation', 'demo-01(Black).tif', '(new)', NULL, NULL, '\xce327d9ee6fee87b74129686ac1c2c5b21fe6adc46e981c08aea7c367dd57493'),
	(108, '2026-11-25 08:00:04.824714+00', 'Demo CSR', 'Separation', 'demo-01(Deep Violet).tif', '(new)', NULL, NULL, '\x024e2257c0f357a4c67888a2e1c2fdddd6af7b591b94f645884239d0fc43b135'),
	(109, '2026-11-25 08:00:05.252191+00', 'Demo CSR', 'Sheet', 'S1VBP1C62', '(new)', NULL, NULL, '\x58161f9edbefb42bb8cbd828f2cff981e0220e28ff12aeb35efbce1953ca2187'),
	(110, '2026-11-25 08:00:05.252191+00', 'Demo CSR', 'Ticket', 'T1VBP1C65', 'State', 'WaitingForFiles', 'Ready', '\x779ba4184ea0a5a806b9a7dd02fbe28c85ee1635c1dae2e9680275e20dbd67b7'),
	(111, '2026-11-25 08:00:05.252191+00', 'Demo CSR', 'StockLot', 'lot L-2331', 'Sheets', '30', '29', '\x0be4319e9e5a39af201b47d1db4762a38a12922d4632b8e09c008169da3fa068'),
	(112, '2026-11-25 08:00:05.279209+00', 'Demo CSR', 'Remnant', 'remnant R1', '(new)', NULL, NULL, '\x45a20daa62f8ee63e3c5b6bdc61bd89dc70317898183e16fba75d54429ba0d71'),
	(113, '2026-11-24 06:00:00+00', 'Dario', 'Ticket', 'T1VBP1C65', 'State', 'Ready', 'InWork', '\x295c18261af0a45be0add281d09badd8bef00ff47fe5744a529053369b1cff26'),
	(114, '2026-11-25 08:00:05.736672+00', 'Demo CSR', 'Order', 'TQ4M2G2QK', '(new)', NULL, NULL, '\x3d4e520d92ab2559cd6ed40f945d6909756ec5a610681a7e80ba3f961b70679a'),
	(115, '2026-11-25 08:00:05.736672+00', 'Demo CSR', 'Ticket', 'TQ4M2G2QK', '(new)', NULL, NULL, '\x932a871694af3f8c87120daf3bd69482f6d22f0134f6e2ec02383e6b8cde20f9'),
	(116, '2026-11-25 08:00:05.736672+00', 'Demo CSR', 'Separation', 'demo-02(Cyan).tif', '(new)', NULL, NULL, '\x7e4ca12d0a281b1562dbe186c74a3c4f54a9508114eeda7786319ac75c026ff0'),
	(117, '2026-11-25 08:00:05.736672+00', 'Demo CSR', 'Separation', 'demo-02(Magenta).tif', '(new)', NULL, NULL, '\x29438d3face1b8cca78762082ca22f43cd604c6060ae8f510e1de29d880810df'),
	(118, '2026-11-25 08:00:05.736672+00', 'Demo CSR', 'Separation', 'demo-02(Yellow).tif', '(new)', NULL, NULL, '\xd3b9318e07f1ba71bf1bdffb7c263f27e8a8c617798ec06f846179bef6f8bc1b'),
	(119, '2026-11-25 08:00:05.736672+00', 'Demo CSR', 'Separation', 'demo-02(Black).tif', '(new)', NULL, NULL, '\x198df05495d8909f8bd41c13476e87a54d8307faf7f1307188950e6b1a35f98f'),
	(120, '2026-11-25 08:00:05.736672+00', 'Demo CSR', 'Separation', 'demo-02(Brand Red 2).tif', '(new)', NULL, NULL, '\x7473859a6d6225bfc77f6b1e9f7ed6bcee09ab889b2af2692ccff6383f426801'),
	(121, '2026-11-25 08:00:05.736672+00', 'Demo CSR', 'Separation', 'demo-02(Leaf Green).tif', '(new)', NULL, NULL, '\xa88d0897197d833133550bbe2640e27c33b78f2170ee246cc9bed8b2357387b4'),
	(122, '2026-11-25 08:00:05.786865+00', 'Demo CSR', 'Sheet', 'SQ4M2G2QH', '(new)', NULL, NULL, '\xbe11800bb3e999de9c12128c7219cac4e3a707e7cc9a737a354853ab57669f51'),
	(123, '2026-11-25 08:00:05.786865+00', 'Demo CSR', 'Ticket', 'TQ4M2G2QK', 'State', 'WaitingForFiles', 'Ready', '\xeb5b4f478a500e854a17aa53b2e963a262f185518a9f2ca217af2778d942055b'),
	(124, '2026-11-25 08:00:05.786865+00', 'Demo CSR', 'StockLot', 'lot L-2331', 'Sheets', '29', '28', '\x42852946df28187a7c3f8ec682f06b91da976f8ffe32dd5d07af36ade58b1228'),
	(125, '2026-11-24 06:37:38+00', 'Dario', 'Ticket', 'TQ4M2G2QK', 'State', 'Ready', 'InWork', '\x1e2ef5d85880e1a225ce1e573acb5d929aedb6b251b209feedc948e84136c4c9'),
	(126, '2026-11-24 09:45:11+00', 'Ada', 'Ticket', 'T1VBP1C65', 'DoneUtc', NULL, '2026-11-24T09:45:11.0000000Z', '\x53fa4f0208a0b838f2ea7d7e610da687f1d2caed13707e7de81b54a0c29521c1'),
	(127, '2026-11-24 09:45:11+00', 'Ada', 'Ticket', 'T1VBP1C65', 'State', 'InWork', 'Done', '\x28e90ae907aa0ee8bc89ead98510069a27355ee25392f5b1ed9faf4a78965f0f'),
	(128, '2026-11-24 10:34:23+00', 'Ada', 'Ticket', 'TQ4M2G2QK', 'DoneUtc', NULL, '2026-11-24T10:34:23.0000000Z', '\xf0aa0e182e337e25e817ae33d41055f1190a317c29451099040b055f7b430012'),
	(129, '2026-11-24 10:34:23+00', 'Ada', 'Ticket', 'TQ4M2G2QK', 'State', 'InWork', 'Done', '\x1d0a40b8c82091b4614a7b9a73ce275eca9c0b998577e2f4d42808acb3ae8127'),
	(130, '2026-11-25 08:00:05.978881+00', 'Demo CSR', 'Order', 'TEBWD0QAA', '(new)', NULL, NULL, '\x518f8ab17aeebc780dcc2d85389a59583d947342bdf18adc579ed8ce2cf6b514'),
	(131, '2026-11-25 08:00:05.978881+00', 'Demo CSR', 'Ticket', 'TEBWD0QAA', '(new)', NULL, NULL, '\x91bd67e80a126429b6ac3ad9daefe2bc2852032529f2204bb0b9074f81e892e7'),
	(132, '2026-11-25 08:00:05.978881+00', 'Demo CSR', 'Separation', 'demo-03(Cyan).tif', '(new)', NULL, NULL, '\x9d45fd52eea42e5c3c0662bc047ca316fa09a4149e896b5178fdc336ead81787'),
	(133, '2026-11-25 08:00:05.978881+00', 'Demo CSR', 'Separation', 'demo-03(Magenta).tif', '(new)', NULL, NULL, '\xcc05af74ca576a9b586ab8474eb829967742b4d7098f51fe3c54540b147507fa'),
	(134, '2026-11-25 08:00:05.978881+00', 'Demo CSR', 'Separation', 'demo-03(Yellow).tif', '(new)', NULL, NULL, '\xff5b37260a41a6fabd75bc0a3b4c67538db366909236ebb2f7991ccc0f16c0ea'),
	(135, '2026-11-25 08:00:05.978881+00', 'Demo CSR', 'Separation', 'demo-03(Black).tif', '(new)', NULL, NULL, '\x456fea555f9316d920b9c5dcd925eb0788570a8dac4c306b506b3db3ee823a3c'),
	(136, '2026-11-25 08:00:05.978881+00', 'Demo CSR', 'Separation', 'demo-03(Leaf Green).tif', '(new)', NULL, NULL, '\xa65df0d320f3e570fa355b0ced0da430ec356f7fbe849f53d6c7a957231c7d5b'),
	(137, '2026-11-25 08:00:06.031003+00', 'Demo CSR', 'Sheet', 'SJ3QEES1R', '(new)', NULL, NULL, '\x9c061de9284df4ee4c8224ce3b28874f92c38dcf52ae2e597800d932a0640059'),
	(138, '2026-11-25 08:00:06.031003+00', 'Demo CSR', 'Sheet', 'SEBWD0QA7', '(new)', NULL, NULL, '\xf3965f7f15e85a809eb43eef57bd3513643c7708c7674b627995d657df55b19e'),
	(139, '2026-11-25 08:00:06.031003+00', 'Demo CSR', 'Ticket', 'TEBWD0QAA', 'State', 'WaitingForFiles', 'Ready', '\xc382413c854e84a2b94301a5f8f472b3cd8a30de548a9f1f28eeb5b0ec42e133'),
	(140, '2026-11-25 08:00:06.031003+00', 'Demo CSR', 'StockLot', 'lot L-2331', 'Sheets', '28', '27', '\x6653503563ffd2334d597cd6f8f137faf34a9c45168fdd4a0e2c45c545cf659f'),
	(141, '2026-11-25 08:00:06.037671+00', 'Demo CSR', 'Remnant', 'remnant R1', 'TakenBySheetId', NULL, '3', '\xcab464843fe139ca9c951d3f9befdcb05855ac4347b4464d6340a706ede1c8c8'),
	(142, '2026-11-24 16:08:44+00', 'Dario', 'Ticket', 'TEBWD0QAA', 'State', 'Ready', 'InWork', '\x6b39cadc0f7123e3e8293745f75e31b8e5ab134ed8dd4c6f45dbb62f2e2df933'),
	(143, '2026-11-24 19:47:10+00', 'Ada', 'Ticket', 'TEBWD0QAA', 'DoneUtc', NULL, '2026-11-24T19:47:10.0000000Z', '\x5bd37bfde1666b678789d29d51f71e001f30dadc5a13ca6c63ed964c490e3c88'),
	(144, '2026-11-24 19:47:10+00', 'Ada', 'Ticket', 'TEBWD0QAA', 'State', 'InWork', 'Done', '\x6f0d007d9c92b0b03fad464582569818e9634cf45964ecc8c8b0e30c64132b95'),
	(145, '2026-11-25 08:00:06.293335+00', 'Demo CSR', 'Order', 'T5K6QFDVR', '(new)', NULL, NULL, '\xc81e37a862998de6c3c147dc22ba64c9c796c1fff47b8391bf8b951a3e9c0ab5'),
	(146, '2026-11-25 08:00:06.293335+00', 'Demo CSR', 'Ticket', 'T5K6QFDVR', '(new)', NULL, NULL, '\x39aa77bc92b7942d9ee5df88f6cc6452d46180baecba59aecff83cfe4b8e50ce'),
	(147, '2026-11-25 08:00:06.293335+00', 'Demo CSR', 'Separation', 'demo-04(Yellow).tif', '(new)', NULL, NULL, '\x88a4a7885d8d7bf290de2e96f67278c29d18f8ff8fafada1b3de9c0997c6e796'),
	(148, '2026-11-25 08:00:06.293335+00', 'Demo CSR', 'Separation', 'demo-04(Black).tif', '(new)', NULL, NULL, '\x03b890759d85e3f61add15b4489b2ad459e0dacd4ee288d898e3c8319a89eb7a'),
	(149, '2026-11-25 08:00:06.308807+00', 'Demo CSR', 'Sheet', 'S0JA5E65P', '(new)', NULL, NULL, '\xd43dce2abaf0b51dd8ea049f376f97a92d76441099967589559182db519c9402'),
	(150, '2026-11-25 08:00:06.308807+00', 'Demo CSR', 'Ticket', 'T5K6QFDVR', 'State', 'WaitingForFiles', 'Ready', '\x029ccda8b0d3bf51e090b2e3cd01f03a04b60d01de5c9d179e0d40b717337d71');
INSERT INTO public."AuditEntries" ("Id", "AtUtc", "By", "Record", "Key", "Field", "From", "To", "Hash") VALUES
	(151, '2026-11-25 08:00:06.308807+00', 'Demo CSR', 'StockLot', 'lot L-2441', 'Sheets', '30', '29', '\x4ab9bd54eb43ce11ba36f5b1e28252bb148b400e02bae48e2015f4c3f0f94748'),
	(152, '2026-11-25 08:00:06.311696+00', 'Demo CSR', 'Remnant', 'remnant R2', '(new)', NULL, NULL, '\x2d706826f2fa682a56f0f11df511dd713943de02a429ad409d967571954b4212'),
	(153, '2026-11-25 06:00:00+00', 'Dario', 'Ticket', 'T5K6QFDVR', 'State', 'Ready', 'InWork', '\x375fd76c77142b73b4262a1442f53f31f997076d8550a684726e340471b0310f'),
	(154, '2026-11-25 08:00:06.413288+00', 'Demo CSR', 'Order', 'TTTF404E0', '(new)', NULL, NULL, '\x898495c4fd8ac18866d4101b1e72876021723d9c9161021fbe5f1c99ac25f079'),
	(155, '2026-11-25 08:00:06.413288+00', 'Demo CSR', 'Ticket', 'TTTF404E0', '(new)', NULL, NULL, '\xa37870d941b0583d704ab0d6cf640d767a452c4f4f56bde24df90bbb9daefb92'),
	(156, '2026-11-25 08:00:06.413288+00', 'Demo CSR', 'Separation', 'demo-05(Cyan).tif', '(new)', NULL, NULL, '\x2b40e0f57cb935af7017b901bb29a93e00730a80574cea5139a54d86a210423e'),
	(157, '2026-11-25 08:00:06.413288+00', 'Demo CSR', 'Separation', 'demo-05(Magenta).tif', '(new)', NULL, NULL, '\x26cc19b731d49e8386d853e9e3f46737d2b1a23c86f1b9153a630ad719d40f04'),
	(158, '2026-11-25 08:00:06.413288+00', 'Demo CSR', 'Separation', 'demo-05(Yellow).tif', '(new)', NULL, NULL, '\x105d1af72e9fa3e103180589ccf10a9bcbd50d58b02cb2ec8692d2b0098bba41'),
	(159, '2026-11-25 08:00:06.413288+00', 'Demo CSR', 'Separation', 'demo-05(Black).tif', '(new)', NULL, NULL, '\xaa5bf9a633cd8091e655546c575140094296169912abf0f4867b8536123bbd00'),
	(160, '2026-11-25 08:00:06.413288+00', 'Demo CSR', 'Separation', 'demo-05(Leaf Green).tif', '(new)', NULL, NULL, '\x539e1a725c134a7d6fb4b1a9d6bf422940d4213df308cabb1d36be8877278315'),
	(161, '2026-11-25 08:00:06.413288+00', 'Demo CSR', 'Separation', 'demo-05(White).tif', '(new)', NULL, NULL, '\xc4a449b83b75a609a16cd10eb759f6032b60d33db42a21556cb6f5c11402de4b'),
	(162, '2026-11-25 08:00:06.509222+00', 'Demo CSR', 'Sheet', 'SD2TTDH94', '(new)', NULL, NULL, '\xdca772cefc3fc6507581111e0d9b3a577551e7aebdf689679f44e6b4e2e6d7bf'),
	(163, '2026-11-25 08:00:06.509222+00', 'Demo CSR', 'Ticket', 'TTTF404E0', 'State', 'WaitingForFiles', 'Ready', '\x7971cad433a5c0ab073516583fdfb5400aad9fd9c3ecb417ed7104fb2e16b65d'),
	(164, '2026-11-25 08:00:06.509222+00', 'Demo CSR', 'StockLot', 'lot L-2541', 'Sheets', '30', '29', '\xd85dbda37709e14cd7fc65d68c58282628187326753673fc85c8f589297f6a21'),
	(165, '2026-11-25 08:00:06.51658+00', 'Demo CSR', 'Remnant', 'remnant R3', '(new)', NULL, NULL, '\x4052c6e44e1a3995bc4a15483a22af636768c744ea5ed4557c8f84781323188d'),
	(166, '2026-11-25 06:46:16+00', 'Dario', 'Ticket', 'TTTF404E0', 'State', 'Ready', 'InWork', '\x9e01bc2ab125edecfacb5af72569c1e4b125c8888477227bb4fbb0409925d77b'),
	(167, '2026-11-25 08:00:06.633752+00', 'Demo CSR', 'Order', 'T9B1RXFJX', '(new)', NULL, NULL, '\x32c9cfad94078cba6d8be7b6ba1401b13c2c054b61931f252d0c73618dfefdf5'),
	(168, '2026-11-25 08:00:06.633752+00', 'Demo CSR', 'Ticket', 'T9B1RXFJX', '(new)', NULL, NULL, '\x62d3b318f531495978f6a4ea14977603f0d0aff9c2feee11e43ce56895180dbe'),
	(169, '2026-11-25 08:00:06.633752+00', 'Demo CSR', 'Separation', 'demo-06(Cyan).tif', '(new)', NULL, NULL, '\x24c4f2b1c1acf6b93e93a36dbc14e79c831b87e6e6bc614dbad0b73d7aa38d04'),
	(170, '2026-11-25 08:00:06.633752+00', 'Demo CSR', 'Separation', 'demo-06(Magenta).tif', '(new)', NULL, NULL, '\xe38b8cfda94d5436cc33e075dcb3da0ce15e819ccebe40696497f683903fa8a6'),
	(171, '2026-11-25 08:00:06.633752+00', 'Demo CSR', 'Separation', 'demo-06(Yellow).tif', '(new)', NULL, NULL, '\xa218c8b6d1f0feab270a6974457bcb9db74800e3b636c483d957b7f08fd93641'),
	(172, '2026-11-25 08:00:06.633752+00', 'Demo CSR', 'Separation', 'demo-06(Black).tif', '(new)', NULL, NULL, '\x61a6fc59357a270f4ae9d3b166ea5297921f1ee438e3d8ce2420250ca6780470'),
	(173, '2026-11-25 08:00:06.72929+00', 'Demo CSR', 'Sheet', 'SSHDHCWDP', '(new)', NULL, NULL, '\xd911587d83e65375cd4791e6d88f8c678115e3044791120a6da50f00ce7db04e'),
	(174, '2026-11-25 08:00:06.72929+00', 'Demo CSR', 'Sheet', 'S4A56W7T0', '(new)', NULL, NULL, '\x2a62acd7e28ea56c8e5d84e309788292678871609059f10698664f3428a36d66'),
	(175, '2026-11-25 08:00:06.72929+00', 'Demo CSR', 'Ticket', 'T9B1RXFJX', 'State', 'WaitingForFiles', 'Ready', '\x862ee0612ac780da04eb0c76e1f22d8c4ad76d5cd06dbf0d31b32d18ce6094a0'),
	(176, '2026-11-25 08:00:06.72929+00', 'Demo CSR', 'StockLot', 'lot L-2331', 'Sheets', '27', '25', '\x17b8861cb4976e90f20eb14c6f3bc60d5eb9cce3d3cc0017c2b74e245361c339'),
	(177, '2026-11-25 07:20:49+00', 'Ada', 'Ticket', 'T9B1RXFJX', 'State', 'Ready', 'InWork', '\x71229f0d21de8328c35bb04095c7bd842fcaafd5c925246b95a5084beda5352d'),
	(178, '2026-11-25 08:00:06.81853+00', 'Demo CSR', 'Order', 'T0JA5E65S', '(new)', NULL, NULL, '\xadaa8e337a0ac8bc08b49f09b7812e7d90a838fb801536e59c32c5338579ef53'),
	(179, '2026-11-25 08:00:06.81853+00', 'Demo CSR', 'Ticket', 'T0JA5E65S', '(new)', NULL, NULL, '\x4d4478fdbc085db6065d09472555cafcc3c3aaee3dac4002632d1657517ef2c2'),
	(180, '2026-11-25 08:00:06.81853+00', 'Demo CSR', 'Separation', 'demo-07(Cyan).tif', '(new)', NULL, NULL, '\xb70799e604e33da05e3ce5f872162e7ddc6f1787909ba86582e6b376d1e1b57b'),
	(181, '2026-11-25 08:00:06.81853+00', 'Demo CSR', 'Separation', 'demo-07(Magenta).tif', '(new)', NULL, NULL, '\x5aef29dcdb36767e69fd42c6313b3e1d3cf2ab3701fce75a1c156f2f3a981e00'),
	(182, '2026-11-25 08:00:06.81853+00', 'Demo CSR', 'Separation', 'demo-07(Yellow).tif', '(new)', NULL, NULL, '\x8046f86c59488475b6b637f2805cca8d0a9d1e7882cf44d124469ead2c736471'),
	(183, '2026-11-25 08:00:06.81853+00', 'Demo CSR', 'Separation', 'demo-07(Black).tif', '(new)', NULL, NULL, '\x02c3964cf614695a9b0bd934ce2e426b57c3c69b9e52484238b2d2793d43febb'),
	(184, '2026-11-25 08:00:06.81853+00', 'Demo CSR', 'Separation', 'demo-07(Leaf Green).tif', '(new)', NULL, NULL, '\x9f0839b18a20d38d9eb5c2ebabc19c5ba10af1abb7ccf2f6c3a565599eb7e55f'),
	(185, '2026-11-25 08:00:06.860328+00', 'Demo CSR', 'Sheet', 'S8208C9H8', '(new)', NULL, NULL, '\xe6d44536bd0eeb4c07a20cd31ea205ec53139790ea54af45d91045f65d85133c'),
	(186, '2026-11-25 08:00:06.860328+00', 'Demo CSR', 'Sheet', 'SGRNVVK03', '(new)', NULL, NULL, '\x2b8cac38ebb3d6b1eadd7ea34f36e0e3cc0949fcfc2de227d5fe958e5d70f8f2'),
	(187, '2026-11-25 08:00:06.860328+00', 'Demo CSR', 'Sheet', 'SX98JV04J', '(new)', NULL, NULL, '\xa8952c8416f96dc04a2e212fc1f4a1e8d3f8ceb5eead2e644cdf6c40d2afa288'),
	(188, '2026-11-25 08:00:06.860328+00', 'Demo CSR', 'Ticket', 'T0JA5E65S', 'State', 'WaitingForFiles', 'Ready', '\x405a5fac2f51a477129b12f72e62dfb50ce0b974a9a58b0bdad156eada421dd4'),
	(189, '2026-11-25 08:00:06.860328+00', 'Demo CSR', 'StockLot', 'lot L-2341', 'Sheets', '30', '27', '\xf6ef08be4d402a97d0937a7cddf53d92bc2506397ed02c67ecb413ca84af9139'),
	(190, '2026-11-25 08:00:06.864928+00', 'Demo CSR', 'Remnant', 'remnant R4', '(new)', NULL, NULL, '\x9e2fd6f2703d59048ef3bb2f2ed8025dda5927b6d39fd2a30304b86bd676eefa'),
	(191, '2026-11-25 07:25:38+00', 'Ada', 'Ticket', 'T0JA5E65S', 'State', 'Ready', 'InWork', '\x024758c5343aec26c02e8d6a2bb7a6c456e1d41fd1562ba1154831e09b37df86'),
	(192, '2026-11-25 07:34:21+00', 'Ada', 'Ticket', 'T5K6QFDVR', 'DoneUtc', NULL, '2026-11-25T07:34:21.0000000Z', '\x835ed76979854dee5149e0b2ee890c1da65cfc11e3c15f045116d5abd4071519'),
	(193, '2026-11-25 07:34:21+00', 'Ada', 'Ticket', 'T5K6QFDVR', 'State', 'InWork', 'Done', '\x16e30b665b128b029223d4c7bb9b9e0a76a9753d37cd05b596101eb047aee0d7'),
	(194, '2026-11-25 08:00:07.09934+00', 'Demo CSR', 'Order', 'TNSJFWTP2', '(new)', NULL, NULL, '\x03fd920389d2835cdc3839c5d5488f396d13affbab22043b68f3214f13696385'),
	(195, '2026-11-25 08:00:07.09934+00', 'Demo CSR', 'Ticket', 'TNSJFWTP2', '(new)', NULL, NULL, '\x60ab2b90f5e47546b97e1315ed50f66e19ff32db72914fd097eaf730f36a26bf'),
	(196, '2026-11-25 08:00:07.09934+00', 'Demo CSR', 'Separation', 'demo-08(Cyan).tif', '(new)', NULL, NULL, '\xc9507bda3bbdf67c7e8be0d35111bd53c16d7b9a06019bb0b8bf504851e78ed9'),
	(197, '2026-11-25 08:00:07.09934+00', 'Demo CSR', 'Separation', 'demo-08(Magenta).tif', '(new)', NULL, NULL, '\x941984738abcbd2f7ac86f001560bfd456576a67c21ded6816c54fec1c7756b7'),
	(198, '2026-11-25 08:00:07.09934+00', 'Demo CSR', 'Separation', 'demo-08(Yellow).tif', '(new)', NULL, NULL, '\x346230debb71b774e70badcd6ff3f84eb1376eb5a8e4754340b73eb31a74e5ca'),
	(199, '2026-11-25 08:00:07.09934+00', 'Demo CSR', 'Separation', 'demo-08(Black).tif', '(new)', NULL, NULL, '\x0d55b76bd6e0a1c877f0c4ad94142b9e152c75ba085d0a4997b051e4b21e5e6d'),
	(200, '2026-11-25 08:00:07.219267+00', 'Demo CSR', 'Sheet', 'SMGGXBMNF', '(new)', NULL, NULL, '\xf7f01e0d1f88b3f574b8afd694a1fe8dd9ef1316614d5d990d93f08182e33acd');
INSERT INTO public."AuditEntries" ("Id", "AtUtc", "By", "Record", "Key", "Field", "From", "To", "Hash") VALUES
	(201, '2026-11-25 08:00:07.219267+00', 'Demo CSR', 'Ticket', 'TNSJFWTP2', 'State', 'WaitingForFiles', 'Ready', '\x3e5e2d60bca3b1ee7cada76ba240007a845d544ea522f22c72bbec4bf87c2870'),
	(202, '2026-11-25 08:00:07.219267+00', 'Demo CSR', 'StockLot', 'lot L-2341', 'Sheets', '27', '26', '\x79c3e17fc5d49121aca19838fad8583a75449cf6db62c6c541b848f71c700573'),
	(203, '2026-11-25 08:00:03+00', 'Demo lead', 'Sheet', 'SMGGXBMNF', 'HoldReason', '', 'customer checks the green separation', '\x904859dea8f79b3458fe92b85b95630942bbdb4aadde19c52c6d9f82c8cf9675');
UPDATE public."AuditHeads" SET "Count" = 203, "LastId" = 203, "Hash" = '\x904859dea8f79b3458fe92b85b95630942bbdb4aadde19c52c6d9f82c8cf9675' WHERE "Id" = 1;
INSERT INTO public."Sites" ("Id", "Name", "TimeZoneId", "Units", "IsDemo", "KnifeGapUm", "ClampMarginUm", "SideMarginUm", "LeastRemnantUm") VALUES
	(1, 'Harbour Lane plate room', 'UTC', 'Metric', true, 10000, 15000, 10000, 300000);
INSERT INTO public."Customers" ("Id", "Name") VALUES
	(1, 'Bramblewood Bakery'),
	(2, 'Kestrel Point Coffee'),
	(3, 'Old Quarry Spring Water'),
	(4, 'Marigold & Finch Tea'),
	(5, 'Northmere Dairy'),
	(6, 'Pillow Fort Snacks'),
	(7, 'Saltgrass Seafood'),
	(8, 'Tin Lantern Pet Food'),
	(9, 'Juniper Row Soaps'),
	(10, 'Copper Ladle Preserves');
INSERT INTO public."Materials" ("Id", "Name", "ThicknessUm", "BaseUm", "Process") VALUES
	(1, 'Aster 170', 1700, 125, 'Solvent'),
	(2, 'Birch 114', 1140, 175, 'Water'),
	(3, 'Corvid 284', 2840, 175, 'Thermal');
INSERT INTO public."Presses" ("Id", "Name", "UsualMaterialId") VALUES
	(1, 'Press 1, wide film', 1),
	(2, 'Press 2, labels', 2),
	(3, 'Press 3, board', 3);
INSERT INTO public."Cylinder" ("Id", "PressId", "Name", "RepeatUm") VALUES
	(1, 1, 'Sleeve 400', 400000),
	(2, 1, 'Sleeve 480', 480000),
	(3, 1, 'Sleeve 560', 560000),
	(4, 2, '96 teeth, 1/8 in', 304800),
	(5, 2, '120 teeth, 1/8 in', 381000),
	(6, 3, 'Cylinder 1000', 1000000),
	(7, 3, 'Cylinder 720', 720000);
INSERT INTO public."Equipment" ("Id", "Name", "Slug", "Kind", "Slots", "Serves", "Process", "ChangeoverSeconds", "DrumRpm", "LaserChannels", "LineLengthMm", "LineGapMm", "ReadingValidHours") VALUES
	(1, 'Frame 1', 'frame-1', 'Single', 1, '{1,3}', NULL, 0, NULL, NULL, NULL, NULL, 168),
	(2, 'Frame 2', 'frame-2', 'Single', 1, '{1,3}', NULL, 0, NULL, NULL, NULL, NULL, 168),
	(3, 'Imager A', 'imager-a', 'Single', 1, '{2}', NULL, 0, 350, 16, NULL, NULL, 168),
	(4, 'Imager B', 'imager-b', 'Single', 1, '{2}', NULL, 0, 350, 24, NULL, NULL, 168),
	(5, 'Line washer', 'line-washer', 'Line', 1, '{4}', 'Solvent', 1200, NULL, NULL, 1800, 100, 168),
	(6, 'Water washer', 'water-washer', 'Single', 1, '{4}', 'Water', 0, NULL, NULL, NULL, NULL, 168),
	(7, 'Thermal unit', 'thermal-unit', 'Single', 1, '{4}', 'Thermal', 0, NULL, NULL, NULL, NULL, 168),
	(8, 'Dryer', 'dryer', 'Slots', 8, '{5}', NULL, 0, NULL, NULL, NULL, NULL, 168),
	(9, 'Finisher', 'finisher', 'Single', 1, '{6}', NULL, 0, NULL, NULL, NULL, NULL, 168),
	(10, 'Cutting table', 'cutting-table', 'Single', 1, '{7}', NULL, 0, NULL, NULL, NULL, NULL, 168);
INSERT INTO public."LampReadings" ("Id", "EquipmentId", "Bank", "IrradianceMwPerCm2", "ReadUtc", "ReadBy") VALUES
	(1, 1, 'Back', 16.33, '2026-09-20 08:00:03.166644+00', 'Demo lead'),
	(2, 1, 'Face', 16.95, '2026-09-20 08:00:03.166644+00', 'Demo lead'),
	(3, 1, 'Back', 16.07, '2026-09-27 08:00:03.166644+00', 'Demo lead'),
	(4, 1, 'Face', 16.71, '2026-09-27 08:00:03.166644+00', 'Demo lead'),
	(5, 1, 'Back', 15.92, '2026-10-04 08:00:03.166644+00', 'Demo lead'),
	(6, 1, 'Face', 16.43, '2026-10-04 08:00:03.166644+00', 'Demo lead'),
	(7, 1, 'Back', 15.88, '2026-10-11 08:00:03.166644+00', 'Demo lead'),
	(8, 1, 'Face', 16.38, '2026-10-11 08:00:03.166644+00', 'Demo lead'),
	(9, 1, 'Back', 15.58, '2026-10-18 08:00:03.166644+00', 'Demo lead'),
	(10, 1, 'Face', 16.07, '2026-10-18 08:00:03.166644+00', 'Demo lead'),
	(11, 1, 'Back', 15.52, '2026-10-25 08:00:03.166644+00', 'Demo lead'),
	(12, 1, 'Face', 15.87, '2026-10-25 08:00:03.166644+00', 'Demo lead'),
	(13, 1, 'Back', 15.35, '2026-11-01 08:00:03.166644+00', 'Demo lead'),
	(14, 1, 'Face', 15.78, '2026-11-01 08:00:03.166644+00', 'Demo lead'),
	(15, 1, 'Back', 15.12, '2026-11-08 08:00:03.166644+00', 'Demo lead'),
	(16, 1, 'Face', 15.43, '2026-11-08 08:00:03.166644+00', 'Demo lead'),
	(17, 1, 'Back', 15.11, '2026-11-15 08:00:03.166644+00', 'Demo lead'),
	(18, 1, 'Face', 15.32, '2026-11-15 08:00:03.166644+00', 'Demo lead'),
	(19, 1, 'Back', 14.9, '2026-11-22 08:00:03.166644+00', 'Demo lead'),
	(20, 1, 'Face', 15.1, '2026-11-22 08:00:03.166644+00', 'Demo lead'),
	(21, 2, 'Back', 15.63, '2026-09-22 03:12:03.166644+00', 'Demo lead'),
	(22, 2, 'Face', 16.45, '2026-09-22 03:12:03.166644+00', 'Demo lead'),
	(23, 2, 'Back', 15.37, '2026-09-29 03:12:03.166644+00', 'Demo lead'),
	(24, 2, 'Face', 16.21, '2026-09-29 03:12:03.166644+00', 'Demo lead'),
	(25, 2, 'Back', 15.22, '2026-10-06 03:12:03.166644+00', 'Demo lead'),
	(26, 2, 'Face', 15.93, '2026-10-06 03:12:03.166644+00', 'Demo lead'),
	(27, 2, 'Back', 15.18, '2026-10-13 03:12:03.166644+00', 'Demo lead'),
	(28, 2, 'Face', 15.88, '2026-10-13 03:12:03.166644+00', 'Demo lead'),
	(29, 2, 'Back', 14.88, '2026-10-20 03:12:03.166644+00', 'Demo lead'),
	(30, 2, 'Face', 15.57, '2026-10-20 03:12:03.166644+00', 'Demo lead'),
	(31, 2, 'Back', 14.82, '2026-10-27 03:12:03.166644+00', 'Demo lead'),
	(32, 2, 'Face', 15.37, '2026-10-27 03:12:03.166644+00', 'Demo lead'),
	(33, 2, 'Back', 14.65, '2026-11-03 03:12:03.166644+00', 'Demo lead'),
	(34, 2, 'Face', 15.28, '2026-11-03 03:12:03.166644+00', 'Demo lead'),
	(35, 2, 'Back', 14.42, '2026-11-10 03:12:03.166644+00', 'Demo lead'),
	(36, 2, 'Face', 14.93, '2026-11-10 03:12:03.166644+00', 'Demo lead'),
	(37, 2, 'Back', 14.41, '2026-11-17 03:12:03.166644+00', 'Demo lead'),
	(38, 2, 'Face', 14.82, '2026-11-17 03:12:03.166644+00', 'Demo lead'),
	(39, 2, 'Back', 14.2, '2026-11-24 03:12:03.166644+00', 'Demo lead'),
	(40, 2, 'Face', 14.6, '2026-11-24 03:12:03.166644+00', 'Demo lead');
INSERT INTO public."NumberSequences" ("Kind", "Next") VALUES
	('Ticket', 10),
	('Sheet', 17);
INSERT INTO public."Orders" ("Id", "Number", "CustomerId", "Title", "PressId", "RepeatUm", "MaterialId", "DueUtc", "Copies", "EnteredUtc", "EnteredBy", "Version") VALUES
	(1, 'T1VBP1C65', 1, 'Rye loaf bag 500 g', 1, 560000, 1, '2026-11-24 22:00:00+00', 1, '2026-11-23 22:48:40.020389+00', 'Demo CSR', 0),
	(2, 'TQ4M2G2QK', 2, 'House roast 1 kg, front', 1, 560000, 1, '2026-11-24 22:00:00+00', 1, '2026-11-24 06:37:37.127481+00', 'Demo CSR', 0),
	(3, 'TEBWD0QAA', 3, 'Still 1.5 l, 6-pack wrap', 1, 480000, 1, '2026-11-24 22:00:00+00', 1, '2026-11-24 16:08:43.844252+00', 'Demo CSR', 0),
	(4, 'T5K6QFDVR', 4, 'Evening blend carton', 2, 304800, 2, '2026-11-25 14:45:00+00', 1, '2026-11-25 05:05:10.710225+00', 'Demo CSR', 0),
	(5, 'TTTF404E0', 5, 'Butter foil 250 g', 3, 720000, 3, '2026-11-25 09:00:00+00', 1, '2026-11-25 06:46:15.631026+00', 'Demo CSR', 0),
	(6, 'T9B1RXFJX', 6, 'Sea salt crisps 150 g', 1, 560000, 1, '2026-11-25 22:00:00+00', 2, '2026-11-25 07:20:48.373436+00', 'Demo CSR', 0),
	(7, 'T0JA5E65S', 7, 'Cod fillets sleeve', 1, 560000, 1, '2026-11-26 08:45:00+00', 1, '2026-11-25 07:25:37.545086+00', 'Demo CSR', 0),
	(8, 'TNSJFWTP2', 8, 'Puppy dry food 3 kg', 1, 400000, 1, '2026-11-25 22:00:00+00', 1, '2026-11-25 07:53:00.556659+00', 'Demo CSR', 0);
INSERT INTO public."Tickets" ("Id", "State", "Weight", "DoneUtc", "CancelledBecause", "Version") VALUES
	(1, 'Done', 1, '2026-11-24 09:45:11+00', '', 3),
	(2, 'Done', 1, '2026-11-24 10:34:23+00', '', 3),
	(3, 'Done', 1, '2026-11-24 19:47:10+00', '', 3),
	(5, 'InWork', 1, NULL, '', 2),
	(6, 'InWork', 1, NULL, '', 2),
	(7, 'InWork', 1, NULL, '', 2),
	(4, 'Done', 1, '2026-11-25 07:34:21+00', '', 3),
	(8, 'Ready', 1, NULL, '', 1);
INSERT INTO public."Separations" ("Id", "TicketId", "Colour", "ColourFrom", "FileName", "Sha256", "FileBytes", "WidthPixels", "HeightPixels", "XPixelsPerMm", "YPixelsPerMm", "WidthUm", "LengthUm", "Coverage", "ImageLeftUm", "ImageTopUm", "ImageWidthUm", "ImageLengthUm", "ImageHash", "LengthVerdict", "AcceptedBecause") VALUES
	(1, 1, 'Cyan', 'FileName', 'demo-01(Cyan).tif', '5adfe5efbd25b641cc719e07248513d2764d980bab312ed5b51a5f4be50ac00f', 6532437, 19000, 55010, 100, 100, 190000, 550104, 0.17781243810655617, 5758, 51572, 172727, 355275, '5adfe5efbd25b641cc719e07248513d2764d980bab312ed5b51a5f4be50ac00f', 'Right', ''),
	(2, 1, 'Magenta', 'FileName', 'demo-01(Magenta).tif', '0ef299a4af8056033fa31ddb6dd9f109f0701fc849472583c338cbd5ab8094d8', 6532437, 19000, 55010, 100, 100, 190000, 550104, 0.13389903941374665, 34545, 17191, 138182, 372466, '0ef299a4af8056033fa31ddb6dd9f109f0701fc849472583c338cbd5ab8094d8', 'Right', ''),
	(3, 1, 'Yellow', 'FileName', 'demo-01(Yellow).tif', 'fb54192ce06d409600754b2a0c9a12241983377b5138a31b3706ec1e2552c374', 6532437, 19000, 55010, 100, 100, 190000, 550104, 0.05127129134482072, 34545, 103144, 143939, 229210, 'fb54192ce06d409600754b2a0c9a12241983377b5138a31b3706ec1e2552c374', 'Right', ''),
	(4, 1, 'Black', 'FileName', 'demo-01(Black).tif', '5fa8dd2d2e358a59c77e0460594d9ee431f5b4e1f22b7fdd3bc5bc828d4faf34', 6532437, 19000, 55010, 100, 100, 190000, 550104, 0.23320954644483927, 5758, 5730, 172727, 406848, '5fa8dd2d2e358a59c77e0460594d9ee431f5b4e1f22b7fdd3bc5bc828d4faf34', 'Right', ''),
	(5, 1, 'Deep Violet', 'FileName', 'demo-01(Deep Violet).tif', 'b1674b93a7a4ed267eea03d47aa7420393b4d9b1398323b011b6bec25cc36e7d', 6532437, 19000, 55010, 100, 100, 190000, 550104, 0.15146068528421366, 28788, 17191, 149697, 349545, 'b1674b93a7a4ed267eea03d47aa7420393b4d9b1398323b011b6bec25cc36e7d', 'Right', ''),
	(6, 2, 'Cyan', 'FileName', 'demo-02(Cyan).tif', 'be110200e269894110727caf806afa3e5d35dd2fbdc0d95ad567521153a955bd', 6876250, 20000, 55010, 100, 100, 200000, 550104, 0.15771818531334122, 11765, 80223, 176471, 309433, 'be110200e269894110727caf806afa3e5d35dd2fbdc0d95ad567521153a955bd', 'Right', ''),
	(7, 2, 'Magenta', 'FileName', 'demo-02(Magenta).tif', 'a18c8f834a6e3fc2712a08b221d4e87a499eac2bf639befd95766a972023915e', 6876250, 20000, 55010, 100, 100, 200000, 550104, 0.18917723952326548, 52941, 34381, 94118, 498532, 'a18c8f834a6e3fc2712a08b221d4e87a499eac2bf639befd95766a972023915e', 'Right', ''),
	(8, 2, 'Yellow', 'FileName', 'demo-02(Yellow).tif', '5c599e9f4b48622eea8403158a1add2001144d34a6dfc9ed1199e0afcc8a42e5', 6876250, 20000, 55010, 100, 100, 200000, 550104, 0.18175701653210624, 17647, 126065, 158824, 320894, '5c599e9f4b48622eea8403158a1add2001144d34a6dfc9ed1199e0afcc8a42e5', 'Right', ''),
	(9, 2, 'Black', 'FileName', 'demo-02(Black).tif', '9fc279870b22a818719a62f76f61d07b0a7bf4a196e75a20f2beb8b125351b19', 6876250, 20000, 55010, 100, 100, 200000, 550104, 0.290736735870817, 35294, 51572, 141176, 446959, '9fc279870b22a818719a62f76f61d07b0a7bf4a196e75a20f2beb8b125351b19', 'Right', ''),
	(10, 2, 'Brand Red 2', 'FileName', 'demo-02(Brand Red 2).tif', '2cc3a48b275979554311165ece9bf999ae08403c9d1a56965a325f1f99ac721b', 6876250, 20000, 55010, 100, 100, 200000, 550104, 0.13845155709342663, 5882, 11460, 176471, 303703, '2cc3a48b275979554311165ece9bf999ae08403c9d1a56965a325f1f99ac721b', 'Right', ''),
	(11, 2, 'Leaf Green', 'FileName', 'demo-02(Leaf Green).tif', 'ef5052c007d69e23822c82c9bb1d09b877c6cc8d7cc3aba1b738d165eb80780c', 6876250, 20000, 55010, 100, 100, 200000, 550104, 0.17025182622068352, 17647, 5730, 135294, 532913, 'ef5052c007d69e23822c82c9bb1d09b877c6cc8d7cc3aba1b738d165eb80780c', 'Right', ''),
	(12, 3, 'Cyan', 'FileName', 'demo-03(Cyan).tif', 'b471ca8e073aa384d9bf7e7d9512001e9535141fe363ae244382e1a9848ab25f', 8520562, 29000, 47010, 100, 100, 290000, 470104, 0.25346183671209765, 34407, 4897, 245763, 435826, 'b471ca8e073aa384d9bf7e7d9512001e9535141fe363ae244382e1a9848ab25f', 'Right', ''),
	(13, 3, 'Magenta', 'FileName', 'demo-03(Magenta).tif', '45abe7abdb9c083081e826414e53e9524f4f5c9a6c053014644eae6d614251b5', 8520562, 29000, 47010, 100, 100, 290000, 470104, 0.2507678353827313, 4915, 9794, 270339, 377063, '45abe7abdb9c083081e826414e53e9524f4f5c9a6c053014644eae6d614251b5', 'Right', ''),
	(14, 3, 'Yellow', 'FileName', 'demo-03(Yellow).tif', '128dba9bdcfa5d6d692ec6ecce30cf56dd6f3bd7f6fe215d71725460c91c7daa', 8520562, 29000, 47010, 100, 100, 290000, 470104, 0.07303229201284803, 34407, 53866, 206441, 401547, '128dba9bdcfa5d6d692ec6ecce30cf56dd6f3bd7f6fe215d71725460c91c7daa', 'Right', ''),
	(15, 3, 'Black', 'FileName', 'demo-03(Black).tif', '2c02f676dfb14ef9ab0847988f0e930a8340bb69f06d479d28d9474fc90276ee', 8520562, 29000, 47010, 100, 100, 290000, 470104, 0.1269407056607895, 4915, 14691, 255593, 426032, '2c02f676dfb14ef9ab0847988f0e930a8340bb69f06d479d28d9474fc90276ee', 'Right', ''),
	(16, 3, 'Leaf Green', 'FileName', 'demo-03(Leaf Green).tif', 'ad81acc2cd0c91c01d75b1ccd329e77d979e4092ca1a286747de75ac2fe39694', 8520562, 29000, 47010, 100, 100, 290000, 470104, 0.14052287581699144, 83559, 39175, 186780, 386856, 'ad81acc2cd0c91c01d75b1ccd329e77d979e4092ca1a286747de75ac2fe39694', 'Right', ''),
	(17, 4, 'Yellow', 'FileName', 'demo-04(Yellow).tif', '15a4edb15e9f15cdaa01061769424fc1db362f1309e820cc4da97a63c1932818', 3734250, 20000, 29874, 100, 100, 200000, 298737, 0.16511310253267533, 15625, 3112, 121875, 177375, '15a4edb15e9f15cdaa01061769424fc1db362f1309e820cc4da97a63c1932818', 'Right', ''),
	(18, 4, 'Black', 'FileName', 'demo-04(Black).tif', 'bf2bf90a0a6a27a3556c73bdee44ea635539d22be100c68ba2a6c5429e956a51', 3734250, 20000, 29874, 100, 100, 200000, 298737, 0.25136208129085524, 25000, 24895, 168750, 242724, 'bf2bf90a0a6a27a3556c73bdee44ea635539d22be100c68ba2a6c5429e956a51', 'Right', ''),
	(19, 5, 'Cyan', 'FileName', 'demo-05(Cyan).tif', '37e3df1112f581bfaaf5682d0b768c52863f5ec0dd532d9769665990e93630f4', 5713987, 26000, 35163, 100, 100, 260000, 351628, 0.28296101774041815, 11143, 7326, 241429, 304011, '37e3df1112f581bfaaf5682d0b768c52863f5ec0dd532d9769665990e93630f4', 'Fraction', ''),
	(20, 5, 'Magenta', 'FileName', 'demo-05(Magenta).tif', 'ccffbcbf3764a48419333d0370fae329bb91c0826f19e37a242cfcc05db6344a', 5713987, 26000, 35163, 100, 100, 260000, 351628, 0.2575583566759916, 3714, 84244, 241429, 249070, 'ccffbcbf3764a48419333d0370fae329bb91c0826f19e37a242cfcc05db6344a', 'Fraction', ''),
	(21, 5, 'Yellow', 'FileName', 'demo-05(Yellow).tif', '7e9eee8a17456b4571c1ebaf8cfdb79877e616afabcb9bc73583c317aa548cee', 5713987, 26000, 35163, 100, 100, 260000, 351628, 0.0938071895424832, 81714, 47616, 148571, 142849, '7e9eee8a17456b4571c1ebaf8cfdb79877e616afabcb9bc73583c317aa548cee', 'Fraction', ''),
	(22, 5, 'Black', 'FileName', 'demo-05(Black).tif', 'b52e6c5424d740d519e200ee1dfd4cd4d0c33b98e82ebd90dcbecaf201fe2cba', 5713987, 26000, 35163, 100, 100, 260000, 351628, 0.11166258169934844, 44571, 65930, 182000, 241744, 'b52e6c5424d740d519e200ee1dfd4cd4d0c33b98e82ebd90dcbecaf201fe2cba', 'Fraction', ''),
	(23, 5, 'Leaf Green', 'FileName', 'demo-05(Leaf Green).tif', '965302151f77aedea99277d85b1a1a11d8d34f33f75996d3b752efecc2ea56ff', 5713987, 26000, 35163, 100, 100, 260000, 351628, 0.07671743697479039, 33429, 40291, 208000, 186802, '965302151f77aedea99277d85b1a1a11d8d34f33f75996d3b752efecc2ea56ff', 'Fraction', ''),
	(24, 5, 'White', 'FileName', 'demo-05(White).tif', '08e899b2166ae5b16b7104b4ca2e08639b9c6b520c33e7d329164e57634b375d', 5713987, 26000, 35163, 100, 100, 260000, 351628, 0.18272408963585482, 29714, 73256, 204286, 168488, '08e899b2166ae5b16b7104b4ca2e08639b9c6b520c33e7d329164e57634b375d', 'Fraction', ''),
	(25, 6, 'Cyan', 'FileName', 'demo-06(Cyan).tif', '4e0b60cbe150d9816610d4371829fadfb6ce7e302bd3b3fde922187e96202a6a', 12721062, 37000, 55010, 100, 100, 370000, 550104, 0.14973639195262087, 46250, 34381, 271719, 492801, '4e0b60cbe150d9816610d4371829fadfb6ce7e302bd3b3fde922187e96202a6a', 'Right', ''),
	(26, 6, 'Magenta', 'FileName', 'demo-06(Magenta).tif', '7021f3387e7ea59fd6daf801a0d32ad2da8fb7e20bee3886bade049bea5603f2', 12721062, 37000, 55010, 100, 100, 370000, 550104, 0.14470103145424926, 11562, 5730, 312188, 475611, '7021f3387e7ea59fd6daf801a0d32ad2da8fb7e20bee3886bade049bea5603f2', 'Right', ''),
	(27, 6, 'Yellow', 'FileName', 'demo-06(Yellow).tif', 'b60d664653125a479b6cface3f0e038b28b8da0f0761cf148e8e1e6eb9fe761a', 12721062, 37000, 55010, 100, 100, 370000, 550104, 0.1822935814950942, 17344, 5730, 294844, 424038, 'b60d664653125a479b6cface3f0e038b28b8da0f0761cf148e8e1e6eb9fe761a', 'Right', ''),
	(28, 6, 'Black', 'FileName', 'demo-06(Black).tif', '2aaa7ad8e684100bcb50ac589505c17d4825cacc3e4be48f2007784a6b13c4fb', 12721062, 37000, 55010, 100, 100, 370000, 550104, 0.19644224877451222, 17344, 45842, 323750, 452690, '2aaa7ad8e684100bcb50ac589505c17d4825cacc3e4be48f2007784a6b13c4fb', 'Right', ''),
	(29, 7, 'Cyan', 'FileName', 'demo-07(Cyan).tif', 'dc64b16590b46fbe50c8d0b095f4d8d8d0ebe04744de1683a4afac25352c682f', 13408687, 39000, 55010, 100, 100, 390000, 550104, 0.06735570453671602, 63088, 11460, 286765, 234940, 'dc64b16590b46fbe50c8d0b095f4d8d8d0ebe04744de1683a4afac25352c682f', 'Right', ''),
	(30, 7, 'Magenta', 'FileName', 'demo-07(Magenta).tif', 'a77186b8a21e6f5f47473c235cfb2f24e331e09fc7bc7a9f1f71fb026967b88c', 13408687, 39000, 55010, 100, 100, 390000, 550104, 0.09666113994617355, 34412, 22921, 263824, 378196, 'a77186b8a21e6f5f47473c235cfb2f24e331e09fc7bc7a9f1f71fb026967b88c', 'Right', ''),
	(31, 7, 'Yellow', 'FileName', 'demo-07(Yellow).tif', '478e3fb3be2fb7b8b7a0b1da68128fb5de8f07b6d0e82cf89346aad6a47bc4e9', 13408687, 39000, 55010, 100, 100, 390000, 550104, 0.13920427239523597, 5735, 17191, 246618, 464150, '478e3fb3be2fb7b8b7a0b1da68128fb5de8f07b6d0e82cf89346aad6a47bc4e9', 'Right', ''),
	(32, 7, 'Black', 'FileName', 'demo-07(Black).tif', 'ef180ccd4ee8056af2b90abc8570c49730ba0652a70b37f706b86a850195596e', 13408687, 39000, 55010, 100, 100, 390000, 550104, 0.1917838091118825, 40147, 22921, 338382, 515722, 'ef180ccd4ee8056af2b90abc8570c49730ba0652a70b37f706b86a850195596e', 'Right', ''),
	(33, 7, 'Leaf Green', 'FileName', 'demo-07(Leaf Green).tif', '355da70585fb14794167fba08098d43417cf02512407dda390e479beb7d990e3', 13408687, 39000, 55010, 100, 100, 390000, 550104, 0.21781586409072637, 57353, 91684, 315441, 429769, '355da70585fb14794167fba08098d43417cf02512407dda390e479beb7d990e3', 'Right', ''),
	(34, 8, 'Cyan', 'FileName', 'demo-08(Cyan).tif', 'dbb453fba5da670446e1be2dc03ab0a2ef34d0c573c642d7a0f664e94a3b55d5', 4876250, 20000, 39010, 100, 100, 200000, 390104, 0.19871948779511656, 4082, 60954, 114286, 272260, 'dbb453fba5da670446e1be2dc03ab0a2ef34d0c573c642d7a0f664e94a3b55d5', 'Right', ''),
	(35, 8, 'Magenta', 'FileName', 'demo-08(Magenta).tif', '7c9c24569dd922bc74addff8e43844598a4da72a54c7eaf09573ce3889335301', 4876250, 20000, 39010, 100, 100, 200000, 390104, 0.09409930638922276, 4082, 12191, 97959, 337277, '7c9c24569dd922bc74addff8e43844598a4da72a54c7eaf09573ce3889335301', 'Right', ''),
	(36, 8, 'Yellow', 'FileName', 'demo-08(Yellow).tif', 'c50d967d977b8d67adaf9401587e0c129d5a825c0c8fe5278171cc25d57e1703', 4876250, 20000, 39010, 100, 100, 200000, 390104, 0.27440559557155003, 20408, 24381, 167347, 341341, 'c50d967d977b8d67adaf9401587e0c129d5a825c0c8fe5278171cc25d57e1703', 'Right', ''),
	(37, 8, 'Black', 'FileName', 'demo-08(Black).tif', '33d2dee1fa4bb79f1542b6c83f72ed369557fdd5811f2119080c59a26b82b7f8', 4876250, 20000, 39010, 100, 100, 200000, 390104, 0.21238995598239258, 4082, 117844, 151020, 219433, '33d2dee1fa4bb79f1542b6c83f72ed369557fdd5811f2119080c59a26b82b7f8', 'Right', '');
INSERT INTO public."Plates" ("Id", "TicketId", "SeparationId", "Copy", "WidthUm", "LengthUm", "OutOfSet", "RemakeOfPlateId") VALUES
	(1, 1, 1, 1, 190000, 550104, false, NULL),
	(2, 1, 2, 1, 190000, 550104, false, NULL),
	(3, 1, 3, 1, 190000, 550104, false, NULL),
	(4, 1, 4, 1, 190000, 550104, false, NULL),
	(5, 1, 5, 1, 190000, 550104, false, NULL),
	(6, 2, 6, 1, 200000, 550104, false, NULL),
	(7, 2, 7, 1, 200000, 550104, false, NULL),
	(8, 2, 8, 1, 200000, 550104, false, NULL),
	(9, 2, 9, 1, 200000, 550104, false, NULL),
	(10, 2, 10, 1, 200000, 550104, false, NULL),
	(11, 2, 11, 1, 200000, 550104, false, NULL),
	(12, 3, 12, 1, 290000, 470104, false, NULL),
	(13, 3, 13, 1, 290000, 470104, false, NULL),
	(14, 3, 14, 1, 290000, 470104, false, NULL),
	(15, 3, 15, 1, 290000, 470104, false, NULL),
	(16, 3, 16, 1, 290000, 470104, false, NULL),
	(17, 4, 17, 1, 200000, 298737, false, NULL),
	(18, 4, 18, 1, 200000, 298737, false, NULL),
	(19, 5, 19, 1, 260000, 351628, false, NULL),
	(20, 5, 20, 1, 260000, 351628, false, NULL),
	(21, 5, 21, 1, 260000, 351628, false, NULL),
	(22, 5, 22, 1, 260000, 351628, false, NULL),
	(23, 5, 23, 1, 260000, 351628, false, NULL),
	(24, 5, 24, 1, 260000, 351628, false, NULL),
	(25, 6, 25, 1, 370000, 550104, false, NULL),
	(26, 6, 25, 2, 370000, 550104, false, NULL),
	(27, 6, 26, 1, 370000, 550104, false, NULL),
	(28, 6, 26, 2, 370000, 550104, false, NULL),
	(29, 6, 27, 1, 370000, 550104, false, NULL),
	(30, 6, 27, 2, 370000, 550104, false, NULL),
	(31, 6, 28, 1, 370000, 550104, false, NULL),
	(32, 6, 28, 2, 370000, 550104, false, NULL),
	(33, 7, 29, 1, 390000, 550104, false, NULL),
	(34, 7, 30, 1, 390000, 550104, false, NULL),
	(35, 7, 31, 1, 390000, 550104, false, NULL),
	(36, 7, 32, 1, 390000, 550104, false, NULL),
	(37, 7, 33, 1, 390000, 550104, false, NULL),
	(38, 8, 34, 1, 200000, 390104, false, NULL),
	(39, 8, 35, 1, 200000, 390104, false, NULL),
	(40, 8, 36, 1, 200000, 390104, false, NULL),
	(41, 8, 37, 1, 200000, 390104, false, NULL);
INSERT INTO public."StepTests" ("Id", "MaterialId", "EquipmentId", "Lot", "IrradianceMwPerCm2", "MadeUtc", "MadeBy", "Steps") VALUES
	(1, 1, 1, 'L-2231', 15, '2026-09-10 08:00:03.166644+00', 'Demo lead', '[{"FloorMm": 0.72, "Seconds": 40}, {"FloorMm": 0.94, "Seconds": 60}, {"FloorMm": 1.06, "Seconds": 80}, {"FloorMm": 1.19, "Seconds": 100}, {"FloorMm": 1.27, "Seconds": 120}, {"FloorMm": 1.37, "Seconds": 140}]');
INSERT INTO public."RecipeRevisions" ("Id", "MaterialId", "Number", "State", "Settings", "ReleasedUtc", "ReleasedBy", "StepTestId", "Doubt", "Note") VALUES
	(1, 1, 1, 'Withdrawn', '{"BackExposure":{"Handling":{"LoadSeconds":90,"UnloadSeconds":60,"LongestWaitAfterSeconds":172800},"SecondsAtReference":100,"ReferenceIrradianceMwPerCm2":15,"FloorMm":1.19},"Imaging":{"Handling":{"LoadSeconds":180,"UnloadSeconds":120,"LongestWaitAfterSeconds":null},"ResolutionPpi":2540,"LaserPowerPercent":82},"FaceExposure":{"Handling":{"LoadSeconds":120,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"DoseMjPerCm2":9720},"Washout":{"Handling":{"LoadSeconds":90,"UnloadSeconds":60,"LongestWaitAfterSeconds":3600},"Process":1,"TransportMmPerMin":150,"BatchSeconds":null,"BrushHeightMm":0.4,"TemperatureC":32},"Drying":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"Seconds":5400,"LongestSeconds":10800,"TemperatureC":60,"RestSeconds":1800},"PostFinish":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"PostExposureSeconds":480,"LightFinishingSeconds":540,"AtOnce":false},"Cutting":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"SecondsPerPlate":120},"MustTick":788,"Limits":{"FloorMm":0.05,"ThicknessMm":0.013,"ReliefMm":0.05,"LampsPercent":60},"Route":[1,2,3,4,5,6,7]}', '2026-05-19 08:00:03.166644+00', 'Demo lead', NULL, '', 'First recipe, from the maker''s range'),
	(2, 1, 2, 'Released', '{"BackExposure":{"Handling":{"LoadSeconds":90,"UnloadSeconds":60,"LongestWaitAfterSeconds":172800},"SecondsAtReference":100,"ReferenceIrradianceMwPerCm2":15,"FloorMm":1.19},"Imaging":{"Handling":{"LoadSeconds":180,"UnloadSeconds":120,"LongestWaitAfterSeconds":null},"ResolutionPpi":2540,"LaserPowerPercent":82},"FaceExposure":{"Handling":{"LoadSeconds":120,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"DoseMjPerCm2":10800},"Washout":{"Handling":{"LoadSeconds":90,"UnloadSeconds":60,"LongestWaitAfterSeconds":3600},"Process":1,"TransportMmPerMin":150,"BatchSeconds":null,"BrushHeightMm":0.4,"TemperatureC":32},"Drying":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"Seconds":5400,"LongestSeconds":10800,"TemperatureC":60,"RestSeconds":1800},"PostFinish":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"PostExposureSeconds":480,"LightFinishingSeconds":540,"AtOnce":false},"Cutting":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"SecondsPerPlate":120},"MustTick":788,"Limits":{"FloorMm":0.05,"ThicknessMm":0.013,"ReliefMm":0.05,"LampsPercent":60},"Route":[1,2,3,4,5,6,7]}', '2026-09-11 08:00:03.166644+00', 'Demo lead', NULL, '', 'More face exposure: fine highlight dots were lost'),
	(3, 2, 1, 'Withdrawn', '{"BackExposure":{"Handling":{"LoadSeconds":90,"UnloadSeconds":60,"LongestWaitAfterSeconds":172800},"SecondsAtReference":42,"ReferenceIrradianceMwPerCm2":15,"FloorMm":0.64},"Imaging":{"Handling":{"LoadSeconds":180,"UnloadSeconds":120,"LongestWaitAfterSeconds":null},"ResolutionPpi":2540,"LaserPowerPercent":78},"FaceExposure":{"Handling":{"LoadSeconds":120,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"DoseMjPerCm2":7560},"Washout":{"Handling":{"LoadSeconds":120,"UnloadSeconds":90,"LongestWaitAfterSeconds":3600},"Process":2,"TransportMmPerMin":null,"BatchSeconds":1080,"BrushHeightMm":0.3,"TemperatureC":45},"Drying":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"Seconds":1500,"LongestSeconds":5400,"TemperatureC":60,"RestSeconds":600},"PostFinish":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"PostExposureSeconds":360,"LightFinishingSeconds":300,"AtOnce":true},"Cutting":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"SecondsPerPlate":90},"MustTick":20,"Limits":{"FloorMm":0.05,"ThicknessMm":0.013,"ReliefMm":0.05,"LampsPercent":60},"Route":[1,2,3,4,5,6,7]}', '2026-05-19 08:00:03.166644+00', 'Demo lead', NULL, '', 'First recipe, from the maker''s range'),
	(4, 2, 2, 'Released', '{"BackExposure":{"Handling":{"LoadSeconds":90,"UnloadSeconds":60,"LongestWaitAfterSeconds":172800},"SecondsAtReference":42,"ReferenceIrradianceMwPerCm2":15,"FloorMm":0.64},"Imaging":{"Handling":{"LoadSeconds":180,"UnloadSeconds":120,"LongestWaitAfterSeconds":null},"ResolutionPpi":2540,"LaserPowerPercent":78},"FaceExposure":{"Handling":{"LoadSeconds":120,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"DoseMjPerCm2":8400},"Washout":{"Handling":{"LoadSeconds":120,"UnloadSeconds":90,"LongestWaitAfterSeconds":3600},"Process":2,"TransportMmPerMin":null,"BatchSeconds":1080,"BrushHeightMm":0.3,"TemperatureC":45},"Drying":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"Seconds":1500,"LongestSeconds":5400,"TemperatureC":60,"RestSeconds":600},"PostFinish":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"PostExposureSeconds":360,"LightFinishingSeconds":300,"AtOnce":true},"Cutting":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"SecondsPerPlate":90},"MustTick":20,"Limits":{"FloorMm":0.05,"ThicknessMm":0.013,"ReliefMm":0.05,"LampsPercent":60},"Route":[1,2,3,4,5,6,7]}', '2026-09-11 08:00:03.166644+00', 'Demo lead', NULL, '', 'More face exposure: fine highlight dots were lost'),
	(5, 3, 1, 'Withdrawn', '{"BackExposure":{"Handling":{"LoadSeconds":90,"UnloadSeconds":60,"LongestWaitAfterSeconds":172800},"SecondsAtReference":185,"ReferenceIrradianceMwPerCm2":15,"FloorMm":2.26},"Imaging":{"Handling":{"LoadSeconds":240,"UnloadSeconds":150,"LongestWaitAfterSeconds":null},"ResolutionPpi":2000,"LaserPowerPercent":85},"FaceExposure":{"Handling":{"LoadSeconds":150,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"DoseMjPerCm2":12150},"Washout":{"Handling":{"LoadSeconds":150,"UnloadSeconds":120,"LongestWaitAfterSeconds":null},"Process":3,"TransportMmPerMin":null,"BatchSeconds":1260,"BrushHeightMm":null,"TemperatureC":163},"Drying":null,"PostFinish":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"PostExposureSeconds":600,"LightFinishingSeconds":480,"AtOnce":false},"Cutting":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"SecondsPerPlate":150},"MustTick":20,"Limits":{"FloorMm":0.05,"ThicknessMm":0.013,"ReliefMm":0.05,"LampsPercent":60},"Route":[1,2,3,4,6,7]}', '2026-05-19 08:00:03.166644+00', 'Demo lead', NULL, '', 'First recipe, from the maker''s range'),
	(6, 3, 2, 'Released', '{"BackExposure":{"Handling":{"LoadSeconds":90,"UnloadSeconds":60,"LongestWaitAfterSeconds":172800},"SecondsAtReference":185,"ReferenceIrradianceMwPerCm2":15,"FloorMm":2.26},"Imaging":{"Handling":{"LoadSeconds":240,"UnloadSeconds":150,"LongestWaitAfterSeconds":null},"ResolutionPpi":2000,"LaserPowerPercent":85},"FaceExposure":{"Handling":{"LoadSeconds":150,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"DoseMjPerCm2":13500},"Washout":{"Handling":{"LoadSeconds":150,"UnloadSeconds":120,"LongestWaitAfterSeconds":null},"Process":3,"TransportMmPerMin":null,"BatchSeconds":1260,"BrushHeightMm":null,"TemperatureC":163},"Drying":null,"PostFinish":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"PostExposureSeconds":600,"LightFinishingSeconds":480,"AtOnce":false},"Cutting":{"Handling":{"LoadSeconds":60,"UnloadSeconds":60,"LongestWaitAfterSeconds":null},"SecondsPerPlate":150},"MustTick":20,"Limits":{"FloorMm":0.05,"ThicknessMm":0.013,"ReliefMm":0.05,"LampsPercent":60},"Route":[1,2,3,4,6,7]}', '2026-09-11 08:00:03.166644+00', 'Demo lead', NULL, '', 'More face exposure: fine highlight dots were lost');
INSERT INTO public."StockSizes" ("Id", "MaterialId", "WidthUm", "LengthUm", "LeastSheets") VALUES
	(1, 1, 900000, 1200000, 10),
	(2, 1, 600000, 900000, 10),
	(3, 2, 900000, 1200000, 10),
	(4, 2, 640000, 760000, 10),
	(5, 3, 1060000, 1520000, 10),
	(6, 3, 900000, 1200000, 10);
INSERT INTO public."StockLots" ("Id", "StockSizeId", "Lot", "Sheets", "ReceivedUtc", "ExpiresOn", "Version") VALUES
	(2, 1, 'L-2334', 40, '2026-11-13 08:00:03.166644+00', '2027-06-23', 0),
	(4, 2, 'L-2344', 12, '2026-11-13 08:00:03.166644+00', '2027-06-23', 0),
	(5, 3, 'L-2431', 30, '2026-09-06 08:00:03.166644+00', '2026-12-19', 0),
	(6, 3, 'L-2434', 40, '2026-11-13 08:00:03.166644+00', '2027-06-23', 0),
	(8, 4, 'L-2444', 12, '2026-11-13 08:00:03.166644+00', '2027-06-23', 0),
	(9, 5, 'L-2531', 30, '2026-09-06 08:00:03.166644+00', '2026-12-19', 0),
	(10, 5, 'L-2534', 40, '2026-11-13 08:00:03.166644+00', '2027-06-23', 0),
	(12, 6, 'L-2544', 12, '2026-11-13 08:00:03.166644+00', '2027-06-23', 0),
	(7, 4, 'L-2441', 29, '2026-09-06 08:00:03.166644+00', '2026-12-28', 1),
	(11, 6, 'L-2541', 29, '2026-09-06 08:00:03.166644+00', '2026-12-28', 1),
	(1, 1, 'L-2331', 25, '2026-09-06 08:00:03.166644+00', '2026-12-19', 4),
	(3, 2, 'L-2341', 26, '2026-09-06 08:00:03.166644+00', '2026-12-28', 2);
INSERT INTO public."Sheets" ("Id", "Number", "MaterialId", "RecipeRevisionId", "WidthUm", "LengthUm", "Lot", "StockLotId", "RemnantMark", "FromWidthUm", "FromLengthUm", "LayoutId", "AxialExtentUm", "PlateCount", "State", "CurrentStation", "HoldReason", "MadeUtc", "DoneUtc", "Prints", "Version") VALUES
	(1, 'S1VBP1C62', 1, 2, 570104, 1200000, 'L-2331', 1, '', 900000, 1200000, NULL, 550104, 5, 'Done', NULL, '', '2026-11-23 22:48:40.020389+00', '2026-11-24 09:45:11+00', 0, 15),
	(2, 'SQ4M2G2QH', 1, 2, 900000, 1200000, 'L-2331', 1, '', 900000, 1200000, NULL, 620000, 6, 'Done', NULL, '', '2026-11-24 06:37:37.127481+00', '2026-11-24 10:34:23+00', 0, 15),
	(3, 'SEBWD0QA7', 1, 2, 329896, 1200000, 'L-2331', NULL, 'R1', 329896, 1200000, NULL, 290000, 2, 'Done', NULL, '', '2026-11-24 16:08:43.844252+00', '2026-11-24 19:26:13+00', 0, 15),
	(4, 'SJ3QEES1R', 1, 2, 900000, 1200000, 'L-2331', 1, '', 900000, 1200000, NULL, 590000, 3, 'Done', NULL, '', '2026-11-24 16:08:43.844252+00', '2026-11-24 19:47:10+00', 0, 15),
	(5, 'S0JA5E65P', 2, 4, 220000, 760000, 'L-2441', 7, '', 640000, 760000, NULL, 200000, 2, 'Done', NULL, '', '2026-11-25 05:05:10.710225+00', '2026-11-25 07:34:21+00', 0, 15),
	(8, 'SSHDHCWDP', 1, 2, 900000, 1200000, 'L-2331', 1, '', 900000, 1200000, NULL, 750000, 4, 'Running', 'FaceExposure', '', '2026-11-25 07:20:48.373436+00', NULL, 0, 6),
	(7, 'S4A56W7T0', 1, 2, 900000, 1200000, 'L-2331', 1, '', 900000, 1200000, NULL, 750000, 4, 'Running', 'Washout', '', '2026-11-25 07:20:48.373436+00', NULL, 0, 8),
	(12, 'SMGGXBMNF', 1, 2, 600000, 900000, 'L-2341', 3, '', 600000, 900000, NULL, 390104, 4, 'OnHold', 'BackExposure', 'customer checks the green separation', '2026-11-25 07:53:00.556659+00', NULL, 0, 2),
	(6, 'SD2TTDH94', 3, 6, 550000, 1200000, 'L-2541', 11, '', 900000, 1200000, NULL, 530000, 6, 'Running', 'PostFinish', '', '2026-11-25 06:46:15.631026+00', NULL, 0, 12),
	(9, 'SGRNVVK03', 1, 2, 600000, 900000, 'L-2341', 3, '', 600000, 900000, NULL, 550104, 2, 'Running', 'FaceExposure', '', '2026-11-25 07:25:37.545086+00', NULL, 0, 8),
	(11, 'SX98JV04J', 1, 2, 600000, 900000, 'L-2341', 3, '', 600000, 900000, NULL, 550104, 2, 'Running', 'Imaging', '', '2026-11-25 07:25:37.545086+00', NULL, 0, 7),
	(10, 'S8208C9H8', 1, 2, 600000, 420000, 'L-2341', 3, '', 600000, 900000, NULL, 550104, 1, 'Running', 'Imaging', '', '2026-11-25 07:25:37.545086+00', NULL, 0, 7);
INSERT INTO public."Placements" ("Id", "SheetId", "PlateId", "Mark", "XUm", "YUm", "WidthUm", "LengthUm", "Rotated") VALUES
	(1, 1, 5, 1, 10000, 15000, 550104, 190000, true),
	(2, 1, 2, 2, 10000, 215000, 550104, 190000, true),
	(3, 1, 3, 3, 10000, 415000, 550104, 190000, true),
	(4, 1, 1, 4, 10000, 615000, 550104, 190000, true),
	(5, 1, 4, 5, 10000, 815000, 550104, 190000, true),
	(6, 2, 7, 1, 10000, 15000, 200000, 550104, false),
	(7, 2, 10, 2, 10000, 575104, 200000, 550104, false),
	(8, 2, 8, 3, 220000, 15000, 200000, 550104, false),
	(9, 2, 6, 4, 220000, 575104, 200000, 550104, false),
	(10, 2, 11, 5, 430000, 15000, 200000, 550104, false),
	(11, 2, 9, 6, 430000, 575104, 200000, 550104, false),
	(12, 3, 16, 1, 10000, 15000, 290000, 470104, false),
	(13, 3, 12, 2, 10000, 495104, 290000, 470104, false),
	(14, 4, 14, 1, 10000, 15000, 290000, 470104, false),
	(15, 4, 13, 2, 10000, 495104, 290000, 470104, false),
	(16, 4, 15, 3, 310000, 15000, 290000, 470104, false),
	(17, 5, 17, 1, 10000, 15000, 200000, 298737, false),
	(18, 5, 18, 2, 10000, 323737, 200000, 298737, false),
	(19, 6, 21, 1, 10000, 15000, 260000, 351628, false),
	(20, 6, 19, 2, 10000, 376628, 260000, 351628, false),
	(21, 6, 22, 3, 10000, 738256, 260000, 351628, false),
	(22, 6, 20, 4, 280000, 15000, 260000, 351628, false),
	(23, 6, 24, 5, 280000, 376628, 260000, 351628, false),
	(24, 6, 23, 6, 280000, 738256, 260000, 351628, false),
	(25, 7, 25, 1, 10000, 15000, 370000, 550104, false),
	(26, 7, 26, 2, 390000, 15000, 370000, 550104, false),
	(27, 7, 27, 3, 10000, 575104, 370000, 550104, false),
	(28, 7, 28, 4, 390000, 575104, 370000, 550104, false),
	(29, 8, 29, 1, 10000, 15000, 370000, 550104, false),
	(30, 8, 30, 2, 390000, 15000, 370000, 550104, false),
	(31, 8, 31, 3, 10000, 575104, 370000, 550104, false),
	(32, 8, 32, 4, 390000, 575104, 370000, 550104, false),
	(33, 9, 33, 1, 10000, 15000, 550104, 390000, true),
	(34, 9, 34, 2, 10000, 415000, 550104, 390000, true),
	(35, 10, 37, 1, 10000, 15000, 550104, 390000, true),
	(36, 11, 35, 1, 10000, 15000, 550104, 390000, true),
	(37, 11, 36, 2, 10000, 415000, 550104, 390000, true),
	(38, 12, 39, 1, 10000, 15000, 390104, 200000, true),
	(39, 12, 41, 2, 10000, 225000, 390104, 200000, true),
	(40, 12, 40, 3, 10000, 435000, 390104, 200000, true),
	(41, 12, 38, 4, 10000, 645000, 390104, 200000, true);
INSERT INTO public."Remnants" ("Id", "MaterialId", "WidthUm", "LengthUm", "Lot", "ExpiresOn", "MadeUtc", "FromSheetId", "TakenBySheetId", "GoneBecause", "Version") VALUES
	(1, 1, 329896, 1200000, 'L-2331', '2026-12-19', '2026-11-23 22:48:40.020389+00', 1, 3, '', 1),
	(2, 2, 420000, 760000, 'L-2441', '2026-12-28', '2026-11-25 05:05:10.710225+00', 5, NULL, '', 0),
	(3, 3, 350000, 1200000, 'L-2541', '2026-12-28', '2026-11-25 06:46:15.631026+00', 6, NULL, '', 0),
	(4, 1, 600000, 480000, 'L-2341', '2026-12-28', '2026-11-25 07:25:37.545086+00', 10, NULL, '', 0);
INSERT INTO public."Scans" ("Id", "Code", "SheetId", "EquipmentId", "Station", "Action", "Confirmed", "Of", "Ticked", "Offline", "ClockBehindSeconds", "By", "ReadUtc", "ReceivedUtc", "Outcome", "Sentence") VALUES
	('4259bcc1-d729-48a6-8830-f36c1ec1d763', 'S1VBP1C62', 1, 1, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:00:00+00', '2026-11-24 06:00:00+00', 'Started', 'Back exposure of sheet S1VB P1C6 2 started on Frame 1. Run 1 min 41 s.'),
	('68bb5bef-8656-44ad-8ec1-e868733a16bc', 'S1VBP1C62', 1, 1, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:04:11+00', '2026-11-24 06:04:11+00', 'Finished', 'Back exposure of sheet S1VB P1C6 2 finished. Next is imaging, planned on Imager B.'),
	('53990662-33b0-48af-bc59-e5d437a05fb7', 'S1VBP1C62', 1, 4, 'Imaging', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-24 06:04:11+00', '2026-11-24 06:04:11+00', 'Started', 'Imaging of sheet S1VB P1C6 2 started on Imager B. Run 6 min 33 s.'),
	('e45f452d-63b8-4a04-894a-58a5c8953166', 'S1VBP1C62', 1, 4, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-24 06:15:44+00', '2026-11-24 06:15:44+00', 'Finished', 'Imaging of sheet S1VB P1C6 2 finished. Next is face exposure, planned on Frame 1.'),
	('e96d7562-9b00-4457-89f6-b3010d914004', 'S1VBP1C62', 1, 1, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:15:44+00', '2026-11-24 06:15:44+00', 'Started', 'Face exposure of sheet S1VB P1C6 2 started on Frame 1. Run 11 min 55 s.'),
	('9b6cd6f3-549c-4f37-a5cf-52a1424cdd7b', 'S1VBP1C62', 1, 1, 'FaceExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:30:39+00', '2026-11-24 06:30:39+00', 'Finished', 'Face exposure of sheet S1VB P1C6 2 finished. Next is washout, planned on Line washer.'),
	('1db99494-85a0-445c-b18c-6d95b5228150', 'S1VBP1C62', 1, 5, 'Washout', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:30:39+00', '2026-11-24 06:30:39+00', 'Started', 'Washout of sheet S1VB P1C6 2 started on Line washer. Run 20 min.'),
	('99ae6aef-b3e4-44f9-a9af-970dd600b302', 'SQ4M2G2QH', 2, 1, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:37:38+00', '2026-11-24 06:37:38+00', 'Started', 'Back exposure of sheet SQ4M 2G2Q H started on Frame 1. Run 1 min 41 s.'),
	('cd0afa11-2a39-491f-bc4d-b1f113cd02a0', 'SQ4M2G2QH', 2, 1, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:41:49+00', '2026-11-24 06:41:49+00', 'Finished', 'Back exposure of sheet SQ4M 2G2Q H finished. Next is imaging, planned on Imager B.'),
	('38b10d58-ce57-4164-bdf9-5e29d2a539ef', 'SQ4M2G2QH', 2, 4, 'Imaging', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-24 06:41:49+00', '2026-11-24 06:41:49+00', 'Started', 'Imaging of sheet SQ4M 2G2Q H started on Imager B. Run 7 min 23 s.'),
	('006a5f98-79cd-45e2-9ee1-a1e41df2db1d', 'S1VBP1C62', 1, 5, 'Washout', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:53:09+00', '2026-11-24 06:53:09+00', 'Finished', 'Washout of sheet S1VB P1C6 2 finished. Next is drying, planned on Dryer.'),
	('2eb267ce-97a3-4de1-b637-87a76bc6eae5', 'S1VBP1C62', 1, 8, 'Drying', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-24 06:53:09+00', '2026-11-24 06:53:09+00', 'Started', 'Drying of sheet S1VB P1C6 2 started on Dryer. Run 1 h 30 min.'),
	('29fd02ac-1c53-41fe-87c7-3bbadf9448aa', 'SQ4M2G2QH', 2, 4, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-24 06:54:12+00', '2026-11-24 06:54:12+00', 'Finished', 'Imaging of sheet SQ4M 2G2Q H finished. Next is face exposure, planned on Frame 1.'),
	('8cbe872c-6d13-4eab-8a56-ead3d6881503', 'SQ4M2G2QH', 2, 1, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 06:54:12+00', '2026-11-24 06:54:12+00', 'Started', 'Face exposure of sheet SQ4M 2G2Q H started on Frame 1. Run 11 min 55 s.'),
	('d8ddba7f-5aa4-44e0-98a8-5e32edff272e', 'SQ4M2G2QH', 2, 1, 'FaceExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 07:09:07+00', '2026-11-24 07:09:07+00', 'Finished', 'Face exposure of sheet SQ4M 2G2Q H finished. Next is washout, planned on Line washer.'),
	('99185bce-3b72-4a19-bebf-4812b0ae1de3', 'SQ4M2G2QH', 2, 5, 'Washout', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 07:09:07+00', '2026-11-24 07:09:07+00', 'Started', 'Washout of sheet SQ4M 2G2Q H started on Line washer. Run 20 min.'),
	('6e82afc7-6703-4015-b4f0-14041d5ef61f', 'SQ4M2G2QH', 2, 5, 'Washout', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 07:31:37+00', '2026-11-24 07:31:37+00', 'Finished', 'Washout of sheet SQ4M 2G2Q H finished. Next is drying, planned on Dryer.'),
	('db084bd0-6f4d-4a7f-b03a-4a0003ec2ce5', 'SQ4M2G2QH', 2, 8, 'Drying', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-24 07:31:37+00', '2026-11-24 07:31:37+00', 'Started', 'Drying of sheet SQ4M 2G2Q H started on Dryer. Run 1 h 30 min.'),
	('d778cd05-9b8a-4018-abd5-ac4f16877b45', 'S1VBP1C62', 1, 8, 'Drying', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-24 08:25:09+00', '2026-11-24 08:25:09+00', 'Finished', 'Drying of sheet S1VB P1C6 2 finished. Next is post-finish, planned on Finisher after a rest until 08:55.'),
	('9d27b150-1e7a-41e5-8274-1b00d6167844', 'S1VBP1C62', 1, 9, 'PostFinish', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 08:55:09+00', '2026-11-24 08:55:09+00', 'Started', 'Post-finish of sheet S1VB P1C6 2 started on Finisher. Run 17 min.'),
	('7177c7e0-d362-4cd7-8058-26e67f58fa04', 'S1VBP1C62', 1, 9, 'PostFinish', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 09:31:00+00', '2026-11-24 09:31:00+00', 'Finished', 'Post-finish of sheet S1VB P1C6 2 finished. Next is cutting, planned on Cutting table.'),
	('470f9fa0-fca6-4efa-9755-0652a324d6a3', 'SQ4M2G2QH', 2, 8, 'Drying', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-24 09:31:00+00', '2026-11-24 09:31:00+00', 'Finished', 'Drying of sheet SQ4M 2G2Q H finished. Next is post-finish, planned on Finisher after a rest until 10:01.'),
	('21b9ea9b-2558-487c-b962-d777dea7cc6c', 'S1VBP1C62', 1, 10, 'Cutting', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-24 09:31:00+00', '2026-11-24 09:31:00+00', 'Started', 'Cutting of sheet S1VB P1C6 2 started on Cutting table. Run 10 min.'),
	('e2505c33-1dbb-4102-9c00-9e285037e55a', 'S1VBP1C62', 1, 10, 'Cutting', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-24 09:45:11+00', '2026-11-24 09:45:11+00', 'Finished', 'Cutting of sheet S1VB P1C6 2 finished. The sheet is done. Ticket T1VB P1C6 5 is complete.'),
	('2ffb5475-1b49-49e4-b4aa-899744b84ec9', 'SQ4M2G2QH', 2, 9, 'PostFinish', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 10:01:00+00', '2026-11-24 10:01:00+00', 'Started', 'Post-finish of sheet SQ4M 2G2Q H started on Finisher. Run 17 min.'),
	('992a5851-cf02-4a4b-9d55-e857efb013b5', 'SQ4M2G2QH', 2, 9, 'PostFinish', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 10:20:00+00', '2026-11-24 10:20:00+00', 'Finished', 'Post-finish of sheet SQ4M 2G2Q H finished. Next is cutting, planned on Cutting table.'),
	('ce00678c-3735-43e7-90b4-11c8948ec3c3', 'SQ4M2G2QH', 2, 10, 'Cutting', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-24 10:20:00+00', '2026-11-24 10:20:00+00', 'Started', 'Cutting of sheet SQ4M 2G2Q H started on Cutting table. Run 12 min.'),
	('8f529bb5-42a4-4959-a33b-cb6f14a04ff3', 'SQ4M2G2QH', 2, 10, 'Cutting', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-24 10:34:23+00', '2026-11-24 10:34:23+00', 'Finished', 'Cutting of sheet SQ4M 2G2Q H finished. The sheet is done. Ticket TQ4M 2G2Q K is complete.'),
	('78b19d68-29a3-4727-9e7d-37292e3d2504', 'SEBWD0QA7', 3, 1, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 16:08:44+00', '2026-11-24 16:08:44+00', 'Started', 'Back exposure of sheet SEBW D0QA 7 started on Frame 1. Run 1 min 41 s.'),
	('0632529b-7b86-4a16-a949-6afe785584e9', 'SJ3QEES1R', 4, 2, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-24 16:08:44+00', '2026-11-24 16:08:44+00', 'Started', 'Back exposure of sheet SJ3Q EES1 R started on Frame 2. Run 1 min 46 s.'),
	('d5406881-343d-4214-84a0-83741224ca77', 'SEBWD0QA7', 3, 1, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 16:12:55+00', '2026-11-24 16:12:55+00', 'Finished', 'Back exposure of sheet SEBW D0QA 7 finished. Next is imaging, planned on Imager B.'),
	('3753a978-bc54-4fcb-8700-c4fc207c8363', 'SEBWD0QA7', 3, 4, 'Imaging', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-24 16:12:55+00', '2026-11-24 16:12:55+00', 'Started', 'Imaging of sheet SEBW D0QA 7 started on Imager B. Run 3 min 27 s.'),
	('ff803e77-dea7-4405-8d7d-7ed333446b58', 'SJ3QEES1R', 4, 2, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-24 16:13:00+00', '2026-11-24 16:13:00+00', 'Finished', 'Back exposure of sheet SJ3Q EES1 R finished. Next is imaging, planned on Imager A.'),
	('b8e3a511-5df7-44fe-b658-824ec409a8ff', 'SJ3QEES1R', 4, 3, 'Imaging', 'Start', false, '', 65535, false, 0, 'Bruno', '2026-11-24 16:13:00+00', '2026-11-24 16:13:00+00', 'Started', 'Imaging of sheet SJ3Q EES1 R started on Imager A. Run 10 min 32 s.'),
	('bdacc8bc-7219-4948-9c21-1be854a2e3f0', 'SEBWD0QA7', 3, 4, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-24 16:21:22+00', '2026-11-24 16:21:22+00', 'Finished', 'Imaging of sheet SEBW D0QA 7 finished. Next is face exposure, planned on Frame 1.'),
	('96461ad2-081d-4595-9a78-2c3a01911c92', 'SEBWD0QA7', 3, 1, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 16:21:22+00', '2026-11-24 16:21:22+00', 'Started', 'Face exposure of sheet SEBW D0QA 7 started on Frame 1. Run 11 min 55 s.'),
	('b8500dcc-afad-487b-bcd7-02c8d78ddfd7', 'SJ3QEES1R', 4, 3, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Bruno', '2026-11-24 16:28:32+00', '2026-11-24 16:28:32+00', 'Finished', 'Imaging of sheet SJ3Q EES1 R finished. Next is face exposure, planned on Frame 2.'),
	('2271ca5a-4a6c-424b-8aca-b3fb8c6d444a', 'SJ3QEES1R', 4, 2, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-24 16:28:32+00', '2026-11-24 16:28:32+00', 'Started', 'Face exposure of sheet SJ3Q EES1 R started on Frame 2. Run 12 min 20 s.'),
	('c7f18e5e-2a00-4788-bd40-bd51d09444e3', 'SEBWD0QA7', 3, 1, 'FaceExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 16:36:17+00', '2026-11-24 16:36:17+00', 'Finished', 'Face exposure of sheet SEBW D0QA 7 finished. Next is washout, planned on Line washer.'),
	('3093f37d-8dce-490e-8623-dff78b445a6b', 'SEBWD0QA7', 3, 5, 'Washout', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 16:36:17+00', '2026-11-24 16:36:17+00', 'Started', 'Washout of sheet SEBW D0QA 7 started on Line washer. Run 20 min.'),
	('604560a5-d9d5-414c-8e9d-aa7763c84774', 'SJ3QEES1R', 4, 2, 'FaceExposure', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-24 16:43:52+00', '2026-11-24 16:43:52+00', 'Finished', 'Face exposure of sheet SJ3Q EES1 R finished. Next is washout, planned on Line washer.'),
	('0ed938a0-bbfb-4624-b6b1-a548df69215d', 'SJ3QEES1R', 4, 5, 'Washout', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 16:44:57+00', '2026-11-24 16:44:57+00', 'Started', 'Washout of sheet SJ3Q EES1 R started on Line washer. Run 20 min.'),
	('373d366a-85c7-46e9-9bb5-10d4adb3c3c9', 'SEBWD0QA7', 3, 5, 'Washout', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 16:58:47+00', '2026-11-24 16:58:47+00', 'Finished', 'Washout of sheet SEBW D0QA 7 finished. Next is drying, planned on Dryer.'),
	('32ac1a56-14bf-491e-b3ce-86173125d8b3', 'SEBWD0QA7', 3, 8, 'Drying', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-24 16:58:47+00', '2026-11-24 16:58:47+00', 'Started', 'Drying of sheet SEBW D0QA 7 started on Dryer. Run 1 h 30 min.'),
	('c4841c5a-9563-4926-9dce-9edd276f6913', 'SJ3QEES1R', 4, 5, 'Washout', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 17:07:27+00', '2026-11-24 17:07:27+00', 'Finished', 'Washout of sheet SJ3Q EES1 R finished. Next is drying, planned on Dryer.'),
	('20a77035-8304-4f07-95e7-b9e5e3745adb', 'SJ3QEES1R', 4, 8, 'Drying', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-24 17:07:27+00', '2026-11-24 17:07:27+00', 'Started', 'Drying of sheet SJ3Q EES1 R started on Dryer. Run 1 h 30 min.'),
	('7658af84-67ab-4f20-b310-39c71e51def2', 'SEBWD0QA7', 3, 8, 'Drying', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-24 18:31:00+00', '2026-11-24 18:31:00+00', 'Finished', 'Drying of sheet SEBW D0QA 7 finished. Next is post-finish, planned on Finisher after a rest until 19:01.'),
	('e65013c2-a7d6-4226-8e74-979b0c77e0b4', 'SJ3QEES1R', 4, 8, 'Drying', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-24 18:50:00+00', '2026-11-24 18:50:00+00', 'Finished', 'Drying of sheet SJ3Q EES1 R finished. Next is post-finish, planned on Finisher after a rest until 19:20.'),
	('028305b2-7775-4260-84ee-a652e0aab976', 'SEBWD0QA7', 3, 9, 'PostFinish', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 19:01:00+00', '2026-11-24 19:01:00+00', 'Started', 'Post-finish of sheet SEBW D0QA 7 started on Finisher. Run 17 min.'),
	('5e9d3d83-b911-4b85-abc9-367dc58c0077', 'SEBWD0QA7', 3, 9, 'PostFinish', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 19:20:00+00', '2026-11-24 19:20:00+00', 'Finished', 'Post-finish of sheet SEBW D0QA 7 finished. Next is cutting, planned on Cutting table.');
INSERT INTO public."Scans" ("Id", "Code", "SheetId", "EquipmentId", "Station", "Action", "Confirmed", "Of", "Ticked", "Offline", "ClockBehindSeconds", "By", "ReadUtc", "ReceivedUtc", "Outcome", "Sentence") VALUES
	('4bc6dbc3-08ac-4dd9-b71c-78c818ab56b7', 'SEBWD0QA7', 3, 10, 'Cutting', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-24 19:20:00+00', '2026-11-24 19:20:00+00', 'Started', 'Cutting of sheet SEBW D0QA 7 started on Cutting table. Run 4 min.'),
	('85ce056c-0df2-431a-8e88-d90ba6027b07', 'SJ3QEES1R', 4, 9, 'PostFinish', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-24 19:20:00+00', '2026-11-24 19:20:00+00', 'Started', 'Post-finish of sheet SJ3Q EES1 R started on Finisher. Run 17 min.'),
	('bd3d89c4-5d88-416f-bb5e-f6c5f76a7f27', 'SEBWD0QA7', 3, 10, 'Cutting', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-24 19:26:13+00', '2026-11-24 19:26:13+00', 'Finished', 'Cutting of sheet SEBW D0QA 7 finished. The sheet is done. Ticket TEBW D0QA A still waits for 1 more sheet.'),
	('4c11e58b-58c4-4440-9db0-ad2d9e4fc6a3', 'SJ3QEES1R', 4, 9, 'PostFinish', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-24 19:39:00+00', '2026-11-24 19:39:00+00', 'Finished', 'Post-finish of sheet SJ3Q EES1 R finished. Next is cutting, planned on Cutting table.'),
	('df6b9efa-81c0-4aed-ba14-0145b20596af', 'SJ3QEES1R', 4, 10, 'Cutting', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-24 19:39:00+00', '2026-11-24 19:39:00+00', 'Started', 'Cutting of sheet SJ3Q EES1 R started on Cutting table. Run 6 min.'),
	('8f3d9e0f-c58a-4ae7-a2a6-7dcd20e53013', 'SJ3QEES1R', 4, 10, 'Cutting', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-24 19:47:10+00', '2026-11-24 19:47:10+00', 'Finished', 'Cutting of sheet SJ3Q EES1 R finished. The sheet is done. Ticket TEBW D0QA A is complete.'),
	('9880ff02-780d-4d2a-84cd-2b6ec796bd06', 'S0JA5E65P', 5, 1, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 06:00:00+00', '2026-11-25 06:00:00+00', 'Started', 'Back exposure of sheet S0JA 5E65 P started on Frame 1. Run 42 s.'),
	('50e21cc4-4285-4e42-929d-abb87a6e90bc', 'S0JA5E65P', 5, 1, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-25 06:03:12+00', '2026-11-25 06:03:12+00', 'Finished', 'Back exposure of sheet S0JA 5E65 P finished. Next is imaging, planned on Imager B.'),
	('049581d5-5baa-4d0f-bae6-4a37871b8122', 'S0JA5E65P', 5, 4, 'Imaging', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-25 06:03:12+00', '2026-11-25 06:03:12+00', 'Started', 'Imaging of sheet S0JA 5E65 P started on Imager B. Run 2 min 23 s.'),
	('cdf09e40-9f69-41b2-beee-5c16922d05b7', 'S0JA5E65P', 5, 4, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-25 06:10:35+00', '2026-11-25 06:10:35+00', 'Finished', 'Imaging of sheet S0JA 5E65 P finished. Next is face exposure, planned on Frame 1.'),
	('32c25b53-ffd9-4b42-a671-3c880e254eff', 'S0JA5E65P', 5, 1, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 06:10:35+00', '2026-11-25 06:10:35+00', 'Started', 'Face exposure of sheet S0JA 5E65 P started on Frame 1. Run 9 min 16 s.'),
	('7b05af3e-6a6f-4c46-a8a6-eca5e78a67b0', 'S0JA5E65P', 5, 1, 'FaceExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-25 06:22:51+00', '2026-11-25 06:22:51+00', 'Finished', 'Face exposure of sheet S0JA 5E65 P finished. Next is washout, planned on Water washer.'),
	('c55c98ac-3267-4a22-abc8-42d46327c1a3', 'S0JA5E65P', 5, 6, 'Washout', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-25 06:22:51+00', '2026-11-25 06:22:51+00', 'Started', 'Washout of sheet S0JA 5E65 P started on Water washer. Run 18 min.'),
	('fae512fb-35b4-4986-9e03-796fcc4e5a0b', 'S0JA5E65P', 5, 6, 'Washout', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-25 06:44:21+00', '2026-11-25 06:44:21+00', 'Finished', 'Washout of sheet S0JA 5E65 P finished. Next is drying, planned on Dryer.'),
	('dab058cc-04b5-4418-b2dd-1451f385f2cd', 'S0JA5E65P', 5, 8, 'Drying', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-25 06:44:21+00', '2026-11-25 06:44:21+00', 'Started', 'Drying of sheet S0JA 5E65 P started on Dryer. Run 25 min.'),
	('cd15aa79-7c6a-418d-938e-c43ede815333', 'SD2TTDH94', 6, 1, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 06:46:16+00', '2026-11-25 06:46:16+00', 'Started', 'Back exposure of sheet SD2T TDH9 4 started on Frame 1. Run 3 min 6 s.'),
	('be8f1709-5f57-47e5-bf37-b2a47a25ff54', 'SD2TTDH94', 6, 1, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-25 06:51:52+00', '2026-11-25 06:51:52+00', 'Finished', 'Back exposure of sheet SD2T TDH9 4 finished. Next is imaging, planned on Imager B.'),
	('e8e0e54a-735c-43ba-8125-898b144fdcd6', 'SD2TTDH94', 6, 4, 'Imaging', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-25 06:51:52+00', '2026-11-25 06:51:52+00', 'Started', 'Imaging of sheet SD2T TDH9 4 started on Imager B. Run 4 min 58 s.'),
	('d1e21ace-6853-43c1-9afe-a117e486be72', 'SD2TTDH94', 6, 4, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-25 07:03:20+00', '2026-11-25 07:03:20+00', 'Finished', 'Imaging of sheet SD2T TDH9 4 finished. Next is face exposure, planned on Frame 1.'),
	('b5f37d9e-cf75-479a-8f32-28e0dd2b1b8e', 'SD2TTDH94', 6, 1, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:03:20+00', '2026-11-25 07:03:20+00', 'Started', 'Face exposure of sheet SD2T TDH9 4 started on Frame 1. Run 14 min 54 s.'),
	('24a7d61e-e559-4e5c-9328-a95c9ab51ed0', 'S0JA5E65P', 5, 8, 'Drying', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-25 07:11:21+00', '2026-11-25 07:11:21+00', 'Finished', 'Drying of sheet S0JA 5E65 P finished. Next is post-finish, planned on Finisher after a rest until 07:21.'),
	('143a855d-245e-461f-8945-41d5d84afec1', 'S4A56W7T0', 7, 2, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:20:49+00', '2026-11-25 07:20:49+00', 'Started', 'Back exposure of sheet S4A5 6W7T 0 started on Frame 2. Run 1 min 46 s.'),
	('0617a46e-4650-4bff-91b9-ea8ba5bbfbe3', 'S0JA5E65P', 5, 9, 'PostFinish', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:21:21+00', '2026-11-25 07:21:21+00', 'Started', 'Post-finish of sheet S0JA 5E65 P started on Finisher. Run 6 min.'),
	('d5f5aec6-3cf9-470e-a11e-bcc1292ee1be', 'SD2TTDH94', 6, 1, 'FaceExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:21:44+00', '2026-11-25 07:21:44+00', 'Finished', 'Face exposure of sheet SD2T TDH9 4 finished. Next is washout, planned on Thermal unit.'),
	('6591e4fb-40dd-4ec5-ac21-0af0ad0ff66c', 'SD2TTDH94', 6, 7, 'Washout', 'Start', false, '', 65535, false, 0, 'Bruno', '2026-11-25 07:21:44+00', '2026-11-25 07:21:44+00', 'Started', 'Washout of sheet SD2T TDH9 4 started on Thermal unit. Run 21 min.'),
	('f3fae114-807b-4254-a624-6ac9d788996f', 'SSHDHCWDP', 8, 1, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:22:19+00', '2026-11-25 07:22:19+00', 'Started', 'Back exposure of sheet SSHD HCWD P started on Frame 1. Run 1 min 41 s.'),
	('c9228c0d-d9b1-4544-b68e-694b67dbf6c3', 'S4A56W7T0', 7, 2, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:25:05+00', '2026-11-25 07:25:05+00', 'Finished', 'Back exposure of sheet S4A5 6W7T 0 finished. Next is imaging, planned on Imager B.'),
	('6e4a242e-cf01-4c40-9169-8dd68ab2360b', 'S4A56W7T0', 7, 4, 'Imaging', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-25 07:25:05+00', '2026-11-25 07:25:05+00', 'Started', 'Imaging of sheet S4A5 6W7T 0 started on Imager B. Run 8 min 56 s.'),
	('ebdd12f0-5752-47f9-917f-a18577d1010e', 'SGRNVVK03', 9, 2, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:25:38+00', '2026-11-25 07:25:38+00', 'Started', 'Back exposure of sheet SGRN VVK0 3 started on Frame 2. Run 1 min 46 s.'),
	('a4f3a6e9-31bc-4778-b0bc-2b4b2c578f87', 'SSHDHCWDP', 8, 1, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:26:30+00', '2026-11-25 07:26:30+00', 'Finished', 'Back exposure of sheet SSHD HCWD P finished. Next is imaging, planned on Imager A.'),
	('90598d77-9120-4a62-b08e-30317a02aff2', 'SSHDHCWDP', 8, 3, 'Imaging', 'Start', false, '', 65535, false, 0, 'Bruno', '2026-11-25 07:26:30+00', '2026-11-25 07:26:30+00', 'Started', 'Imaging of sheet SSHD HCWD P started on Imager A. Run 13 min 24 s.'),
	('7bb3c5c0-05f7-42ff-8abb-94755923c8a5', 'SX98JV04J', 11, 1, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:27:08+00', '2026-11-25 07:27:08+00', 'Started', 'Back exposure of sheet SX98 JV04 J started on Frame 1. Run 1 min 41 s.'),
	('987a92fb-06d9-4fb4-88ff-27be76081bef', 'S0JA5E65P', 5, 9, 'PostFinish', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:29:21+00', '2026-11-25 07:29:21+00', 'Finished', 'Post-finish of sheet S0JA 5E65 P finished. Next is cutting, planned on Cutting table.'),
	('309ab44c-19f0-4b52-9d28-552a7fe38578', 'S0JA5E65P', 5, 10, 'Cutting', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:29:21+00', '2026-11-25 07:29:21+00', 'Started', 'Cutting of sheet S0JA 5E65 P started on Cutting table. Run 3 min.'),
	('8fa33dd7-b59e-42fa-8cd6-cda7dfb90b4b', 'SGRNVVK03', 9, 2, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:29:54+00', '2026-11-25 07:29:54+00', 'Finished', 'Back exposure of sheet SGRN VVK0 3 finished. Next is imaging, planned on Imager B.'),
	('dc8508fe-7f97-4f7f-8645-c67b19f82da8', 'S8208C9H8', 10, 2, 'BackExposure', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:29:54+00', '2026-11-25 07:29:54+00', 'Started', 'Back exposure of sheet S820 8C9H 8 started on Frame 2. Run 1 min 46 s.'),
	('59a50d27-8a02-48a1-89f4-dfc90372cd54', 'SX98JV04J', 11, 1, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:31:20+00', '2026-11-25 07:31:20+00', 'Finished', 'Back exposure of sheet SX98 JV04 J finished. Next is imaging, planned on Imager A.'),
	('32f16088-22c7-49ad-b2c2-83c2d6a03595', 'S8208C9H8', 10, 2, 'BackExposure', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:34:12+00', '2026-11-25 07:34:12+00', 'Finished', 'Back exposure of sheet S820 8C9H 8 finished. Next is imaging, planned on Imager B.'),
	('0034edc1-dacf-4ee9-b5cc-3c089068e76f', 'S0JA5E65P', 5, 10, 'Cutting', 'Finish', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:34:21+00', '2026-11-25 07:34:21+00', 'Finished', 'Cutting of sheet S0JA 5E65 P finished. The sheet is done. Ticket T5K6 QFDV R is complete.'),
	('3e6a7357-c525-43c4-aff6-d60136ec5703', 'S4A56W7T0', 7, 4, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-25 07:39:01+00', '2026-11-25 07:39:01+00', 'Finished', 'Imaging of sheet S4A5 6W7T 0 finished. Next is face exposure, planned on Frame 1.'),
	('7691db9b-fdf8-4fda-98a7-01d515446c09', 'S4A56W7T0', 7, 1, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:39:01+00', '2026-11-25 07:39:01+00', 'Started', 'Face exposure of sheet S4A5 6W7T 0 started on Frame 1. Run 11 min 55 s.'),
	('a0cc6454-305b-4d76-b017-9877734e7144', 'SGRNVVK03', 9, 4, 'Imaging', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-25 07:39:01+00', '2026-11-25 07:39:01+00', 'Started', 'Imaging of sheet SGRN VVK0 3 started on Imager B. Run 6 min 33 s.'),
	('09950842-466d-4c7a-8cd6-5e016941c8a3', 'SSHDHCWDP', 8, 3, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Bruno', '2026-11-25 07:44:54+00', '2026-11-25 07:44:54+00', 'Finished', 'Imaging of sheet SSHD HCWD P finished. Next is face exposure, planned on Frame 2.'),
	('bd5b1244-0b70-48fd-90cf-b50bc63843a8', 'SSHDHCWDP', 8, 2, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Ada', '2026-11-25 07:44:54+00', '2026-11-25 07:44:54+00', 'Started', 'Face exposure of sheet SSHD HCWD P started on Frame 2. Run 12 min 20 s.'),
	('d666edea-048f-4a8b-bf10-d5d3294892f5', 'SX98JV04J', 11, 3, 'Imaging', 'Start', false, '', 65535, false, 0, 'Bruno', '2026-11-25 07:44:54+00', '2026-11-25 07:44:54+00', 'Started', 'Imaging of sheet SX98 JV04 J started on Imager A. Run 9 min 49 s.'),
	('c155e9d7-dd0f-41ce-9983-f18a7326930e', 'SD2TTDH94', 6, 7, 'Washout', 'Finish', false, '', 65535, false, 0, 'Bruno', '2026-11-25 07:47:14+00', '2026-11-25 07:47:14+00', 'Finished', 'Washout of sheet SD2T TDH9 4 finished. Next is post-finish, planned on Finisher.'),
	('a9f8a6c9-5e0b-4977-a407-52de50ea18ca', 'SD2TTDH94', 6, 9, 'PostFinish', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:47:14+00', '2026-11-25 07:47:14+00', 'Started', 'Post-finish of sheet SD2T TDH9 4 started on Finisher. Run 18 min.'),
	('03c15e5a-7a3a-4693-89ff-901a9b876802', 'SGRNVVK03', 9, 4, 'Imaging', 'Finish', false, '', 65535, false, 0, 'Chika', '2026-11-25 07:50:34+00', '2026-11-25 07:50:34+00', 'Finished', 'Imaging of sheet SGRN VVK0 3 finished. Next is face exposure, planned on Frame 1.'),
	('86732f71-099e-491a-bc14-be28eacc207f', 'S8208C9H8', 10, 4, 'Imaging', 'Start', false, '', 65535, false, 0, 'Chika', '2026-11-25 07:50:34+00', '2026-11-25 07:50:34+00', 'Started', 'Imaging of sheet S820 8C9H 8 started on Imager B. Run 6 min 33 s.'),
	('02d174c1-d0ec-41e6-a6bc-1212354eb2b7', 'S4A56W7T0', 7, 1, 'FaceExposure', 'Finish', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:53:56+00', '2026-11-25 07:53:56+00', 'Finished', 'Face exposure of sheet S4A5 6W7T 0 finished. Next is washout, planned on Line washer.');
INSERT INTO public."Scans" ("Id", "Code", "SheetId", "EquipmentId", "Station", "Action", "Confirmed", "Of", "Ticked", "Offline", "ClockBehindSeconds", "By", "ReadUtc", "ReceivedUtc", "Outcome", "Sentence") VALUES
	('38b339bd-c2f4-4c3e-8f7e-7f0652c3db8b', 'S4A56W7T0', 7, 5, 'Washout', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:53:56+00', '2026-11-25 07:53:56+00', 'Started', 'Washout of sheet S4A5 6W7T 0 started on Line washer. Run 20 min.'),
	('4947f010-a301-434a-a5da-ad36d589f68b', 'SGRNVVK03', 9, 1, 'FaceExposure', 'Start', false, '', 65535, false, 0, 'Dario', '2026-11-25 07:53:56+00', '2026-11-25 07:53:56+00', 'Started', 'Face exposure of sheet SGRN VVK0 3 started on Frame 1. Run 11 min 55 s.');
INSERT INTO public."SeparationPreviews" ("SeparationId", "Png") VALUES
	(1, '\x89504e470d0a1a0a0000000d4948445200000021000000600800000000b68b447a0000005c49444154780162fa4f08303110022354c53aec8061a486074e3078d24722040c0197120283274c09815197a282a1141ef32100d503486028f9851018f50b2a180d0f5440d5f008c20e46db0ee880aaa18e138cda02182a183ae101000f113fa005a697830000000049454e44ae426082'),
	(2, '\x89504e470d0a1a0a0000000d4948445200000021000000600800000000b68b447a0000009b49444154780162fa4f0830311002a4a8988f0210269362062e306a062a189ce1b1070a90dd3a385d8a0d90ec527108b87cb908021818484ea72e581c42b23bb000a819870f1f560101dc2ab0c8c000d40c18170b1855810a06243c02030375c1a00f02c84885d8c080f8050b182877248201c24103e50e7430ea0e54407478d82200aa09a497dad800d1eec00346cd4005a3e101182a1859e101005b8543a0d5d9eecb0000000049454e44ae426082'),
	(3, '\x89504e470d0a1a0a0000000d4948445200000021000000600800000000b68b447a0000008049444154780162fa4f0830311002a32a50c16878a002e4f0980a02a8d20c0ca329080d20871876409a8a6c10c0300861c65eac60f8c6cb6b54000d194478400530c0a80a54000d8ffbf7ef2b29a1ca303883c040a420f30814007516d4a5501e3630e45428820136af8c96a76860c8c52d1e30ea1754301a1e80a18291151e00f4914ea016ab86c30000000049454e44ae426082'),
	(4, '\x89504e470d0a1a0a0000000d4948445200000021000000600800000000b68b447a0000007849444154780162fa4f08303130acc7011820800942e1214755a082d1f04005a3e1810ae8161e813800d4397473070130ea0e54407a7858a10106a2c2d4090570a000908b48770726183503150caff0d887027ea00090bf87976f0901d27d7b0c0d10976f0901d2dd810946cd4005a3e101182aa04f780000629265a05d5d76400000000049454e44ae426082'),
	(5, '\x89504e470d0a1a0a0000000d4948445200000021000000600800000000b68b447a0000008149444154780162fa4f0830311002c4aad80806d84d23d60c7c60d40c54301a1ea86040c263033280b86740dc81050c3577f88301168f30305031efc7c200168b681d620e0e0e0ed4f40b3e406bbf40c030b665ed042430347dbb180c1e3f7efc18e27e6492fe3177000b18cd0de880fef1821d8cba03158c860760a8803ee10100060352a0a31991870000000049454e44ae426082'),
	(6, '\x89504e470d0a1a0a0000000d49484452000000220000006008000000005dbcff790000008249444154780162fa4f1030311004a34ab083c1182e0b1100ddd183d1b948600e0a601894a18b070cf2d04507a3cec50ee81e2e4c08c00e01708711e7961a10b8090170ad48803853088141604a0a048c960cb8c02088233818646e690101750880bb110990e0dc580c0037870453f0805153b083d170c10e46c30530ec808870010094df479f3fee679d0000000049454e44ae426082'),
	(7, '\x89504e470d0a1a0a0000000d49484452000000220000006008000000005dbcff790000007149444154780162fa4f10303110048353491f1a807b63703a17271800e7de420370b70d805b708251b76007a3e1821d8c860b76301a2ed8c168b8600743365c668080d3270898316306dc7b03e6a300305806770803c3d00d5d9c60c042170b18750b7630b4c305b0300840f11a757c040052e7499fb6774cf80000000049454e44ae426082'),
	(8, '\x89504e470d0a1a0a0000000d49484452000000220000006008000000005dbcff790000009049444154780162fa4f1030311004a34ab083d170c10e065bb84c9d3a752a76978201dcb92b5000580e4ac09540f9502a0a02c03c1c4a90c1a812ec60345cb083211a2e2da8bed18200b0e810f5111e30ea23ec80aee1929d9dfd1ebb33c08078b7d4d48035c0896b10001625de147c60509a1211b10909203b7f209cbb0c13809d34106ec10546dd02187630c4c20500dd1e519feb319f6c0000000049454e44ae426082'),
	(9, '\x89504e470d0a1a0a0000000d49484452000000220000006008000000005dbcff790000006949444154780162fa4f1030311004235c891932400eac111e2e38c168b86007a3e1821d8c860b763034c3252d2d0dc53bfe5000121c9a3ec20786ad8f66cd9a85d3dfc3d6d3f800f99ede080520d3c93705198c9a821d8cf07039850c90436884870b60c84181c20600b12d3a9f5674516b0000000049454e44ae426082'),
	(10, '\x89504e470d0a1a0a0000000d49484452000000220000006008000000005dbcff790000007849444154780162fa4f10303110044c0c7740009f3aa24c21084835c50a09200c27d514ec60d414ec60c886cbf4e9d36391c07408606018ba3ec209866c1ce104a33ec20e06205c3299b180cc219d8fd2b0005078532b7455400064202e4c2d8b0882518bb083d170c10e46c3053b180d17c0b08321162e00143e3d9f5a1ee8fa0000000049454e44ae426082'),
	(11, '\x89504e470d0a1a0a0000000d49484452000000220000006008000000005dbcff790000008449444154780162fa4f103031a082ed60802286ae0445120246956007a3e1821d503f5c66cf9e3d1b621788056532d0c0221c80fa3ec201462dc20ed0c3e50918a0a84557822209012025fd500011c120414a300451c1a812ec60345cb083d170c10e46c3053b18c2e1928a0a60fe1bc23ec201467d04187640bd70298402ecf610130100c6ef3f9f8cc31a670000000049454e44ae426082'),
	(12, '\x89504e470d0a1a0a0000000d494844520000003b0000006008000000008607555b000000a349444154780162fa4f3e6062c00de27001a8167c7aa14a7052a37a8907a361453c180d2be2012cacd0b2395106c0f412a5180dd04aef225c006a3fadec2504a86a2f0b182411060cd4b597044055ff920046ed251e8c8615f16034ac88071861f5070ce61106a3e5152900239c49d03caa9778301a56c483d1b0221e8c8615f16034ac8807a361453c180d2be2c1500e2bb46101a23c3d94fd0b18511e445344897f01bcbb8c8603f0b4aa0000000049454e44ae426082'),
	(13, '\x89504e470d0a1a0a0000000d494844520000003b0000006008000000008607555b000000a549444154780162fa4f3e6062201fa0e9bd4600a05884a617458e1067542ff16034ac88074333ac0e8100f19e440243d3bfe48351ff120f46c38a78301a5608d08f0952535353e10a46c38a78301a560c31308023d48cc08081615086d559ec00ee95d1f8251e8c8615f16034ac88078324acb4b4b4b48876f420713349803237db810049f6c10065f6920f46ed6538471418a4753721301abfc483d1b0028c783014c30a00389c9d86fb2ccfef0000000049454e44ae426082'),
	(14, '\x89504e470d0a1a0a0000000d494844520000003b0000006008000000008607555b000000a849444154780162fa4f3e6062201f8cea251e8ce4b0ba43144084e5480e2b74f00f1b4052341a56c4035858b9bbbbbb13af0b02607a213cd2c851bdc4035858eddcb97327f1ba2000a617c2238d1cd54b3c180d2be2c1e00aabaeaeae2ec26e1f5c6e2e2b2b2b1b6a6e260e0cae70260e8cba9978301a56c483a11e562a6800abcf5510a243ddbfa48251ff120f46c38a78301a56c483d1b0221e0cc6b0024c0d1b40f2d240b91900b8e97e86cff9b6600000000049454e44ae426082'),
	(15, '\x89504e470d0a1a0a0000000d494844520000003b0000006008000000008607555b000000b949444154780162fa4f3e6062201f50a837051510ef0e0aed251bd0c2de73c80087cb68612f3160d45ee2c1c087553e145c0603566400168103b8a706decda4835137130f106135110a74c1e03732008bc001dc7026068639a8002e459081b097a0520c30aa9778301a56c483d1b0221e50165657b002366480a102e236caec251f8cda4b3c180d2be2c16858110f46c38a78301a56c483d1b0221e8c8615f16034ac88070317563a640088bf06cecd8041ec27871c2837030004c9a786f41638530000000049454e44ae426082'),
	(16, '\x89504e470d0a1a0a0000000d494844520000003b0000006008000000008607555b000000a649444154780162fa4f3e6062201f8cea251e503dac3c6000bf1ba86e2f9160d45ee2c16858110f46c38a788027ac82838367e335088f5ebcfa4060542ff16034aca64d9be60706a0409b86099e8101487234ac8807a361453c180d2be2c16858110f46c38a78301a56c483d1b0221ed037aca4c000e43afada8b00a3f666c1002850606c24001286e0d1b0221ee009abd4d4d454bc06e1d18b571f088cea058c7830506105006b90618684d6984f0000000049454e44ae426082'),
	(17, '\x89504e470d0a1a0a0000000d494844520000004000000060080000000088ae2b34000000bf49444154780162fa4f216062008102e20048293a8618802e4a027fd40086d130a076189cc20640b6e0c3909438010cb0aa03cb40096c0a2006609321526cd480d1bc0002a3e960341d80c0683aa0623ae8efefef07052a060649e09002aba57d2c303333836dc24550cd0585858585b82cc12345c558201b502d0cc806a32e184d072040d57410810d806cc187a9ea02b200555d908703e07519555d40161875c168790002a3e960341d80c0683a184d0720309a0e46d3016020300cd2010095e18681da6d330e0000000049454e44ae426082'),
	(18, '\x89504e470d0a1a0a0000000d494844520000004000000060080000000088ae2b34000000a949444154780162fa4f216062a0108c1ac030a8c3c01703608df0d1681cdcd14824188dc6d1680481d17430a8d241053a00c5112a46528190c0198d010835305600029c8082411506e4029c6140ac81a3068ca60310184d07a3e9000446d3c1683a0081d17440d374508d0140818e81476381a6b14024188d85d1580081d17480271d6cc00b2ca0008f01c402782c74900410c6c30d400891c61a35809ad1081869618f503df0b10000cab39481a3c5cdde0000000049454e44ae426082'),
	(19, '\x89504e470d0a1a0a0000000d494844520000004600000060080000000085b05b73000000bc49444154780162fa4f15c0c4401580624c134e40c82e14630829c60d468dc10d46c30637180d1bdc60a485cd132490861730a0967eb88390101869414c0aa062d89c830152ec470554740d15008a6bea500029a6a318438a4654306a0c6e301a36b8c168d8e006b40e9bf676dc7663cad0da35a48151d7e006a361831b8cacb0a9acc41d129832232b6c4803a361831b8c860d6e301a36b8c1480b9b594483d1c1057c60f0a51b2318c0e76cfc60f0798a0a60d45380e106c3326c00dbcc957b05d577720000000049454e44ae426082'),
	(20, '\x89504e470d0a1a0a0000000d494844520000004600000060080000000085b05b73000000b549444154780162fa4f15c0c44015306a0c6e301a36b8c168d8e006a361831b8c860d6e40c3b0d98401703b032a4343d79001465d831b8c860d6e3048c3a61001f6efc7ed7a1c806a9e328700146b8ea3814a7c00a4936aaea10a18750d6e40b5b0390901b86d220650cd355401a3aec10d46c30637180d1bdc60346c7083d1b0c10d46c30637180d1bdc60346c7083411a36fdc800b7eb718041ea29cac0a8a77003ec61d34e0a00198edd18900c6024e161690c00123b997bbe51cdec0000000049454e44ae426082'),
	(21, '\x89504e470d0a1a0a0000000d494844520000004600000060080000000085b05b73000000cc49444154780162fa4f15c0c44015306a0c6e301a36b8c1880b9b8910803b441032232e6c480038c366e6cc991c1030130f80d984d318d2002e637ca9630c8900976b4804a3c6e00638c366cb962d3f20600b36900e013083711ac3c0c0b00702404c421887313b731080901120791cc6900a468dc10d46c30637180d1bdc60346c7083211136ee531000b757103243c2530c9b0900847fc0aca1e12912c1a8a77083d1b0c10d46c30637180d1bdc60346c7083d1b0c10d46c30637180d1bdc60346c7083d1b0010c77d80000198f9f7b66cfc8b30000000049454e44ae426082'),
	(22, '\x89504e470d0a1a0a0000000d494844520000004600000060080000000085b05b73000000c249444154780162fa4f15c0c44015306a0c6e301a36b8c168d8e006a361831be00f9b4630c0ad1b2e83df18a2c12036e61c1a20da4fa3453a1e3088239c7c30ea29dc60346c7083d1b0c10db087cd35085802d1b7042780c833308cc8acb91b046680013c1cb031b00731369578c1a831b8c168d8e006340d1b2d088841b63e060b80cbd3d435248351d7e006a361831b8c860d6e3002c3a61e7768a0ca8cc0b0211a0cffb031420344070da17aea0802e03573f80731f960346c00c30d8665d80000ed96897b296981b90000000049454e44ae426082'),
	(23, '\x89504e470d0a1a0a0000000d494844520000004600000060080000000085b05b73000000bb49444154780162fa4f15c0c44015306a0c6e301a36b801d5c3a68010c0ed1686d1548c07503da62802a3aec10d46c30637180d1bdc60c886cd23ec00ec5384a726a0003318288203b07a1c04c2181c0a8803a3c6e006a361831be00a9ba8a8a8a8dbb76f4745e1d68a2c83cb1838902304c02a091a431c18350637180d1bdc60346c7083d1b0c10df0854d7d7d3d6e8da832f88c21018c1a831b8c860d6e301a36b8c168d8e006a361831b8c860d6e301a36b8c168d800863b6c00fecc817bec370d580000000049454e44ae426082'),
	(24, '\x89504e470d0a1a0a0000000d494844520000004600000060080000000085b05b73000000b449444154780162fa4f15c0c44015306a0c6e301a36b8c168d8e006a361831b0cd2b0892300707b082483ee29615ca0103b0099c1c0305a16e301e8418c47293e306a0c6e301a36b8c168d8e006a361831b8c88b0798b060405a1028a30d08f02a0c13522c2864c4074d8e4c100568b8836063f185ac6dcb983df3750d9a1e52922c1a8a77083e11d368b0800dce1029219de614319180d1bdc60346c7083d1b0c10d46c30637180d1bdc60346c00c30da81436009857967bc246d5480000000049454e44ae426082'),
	(25, '\x89504e470d0a1a0a0000000d494844520000004000000060080000000088ae2b34000000b149444154780162fa4f216062a0108c1ac08011063d58019e801e0d44cc4024198c06e268208200cdd34114183cc30020cbc1987a2eb80a0160534921a8e70272c1a80b467323088c8074b00c0cdea3032990f7c17804840141301a06b42d0f1c10e03b3a40440e3c16b421002143240b6e0091ea31948d1a40db747000014cd0012232466381b6b1401c188d85d1580081d174309a0e4060341d8ca60310184d0783311d0056821580e20b071e06d10800cbd3a2811c5898af0000000049454e44ae426082'),
	(26, '\x89504e470d0a1a0a0000000d494844520000004000000060080000000088ae2b34000000bd49444154780162fa4f216062c00e96c3017679b8282e03e00a0831460d60181961e0ececec8c27318ca68311920e0880d174309a0e4060341d8ca60310184d07a3e9000446d301381d1c3c188b09b6c18194949414a67c2c280041783410c18148190007620a26f0828367cf9e3d43935fbc78f16298b56003601c72683a185057575787c7697470010130ea026a25654ac0682c8cc602088ca683619d0e40cd0a080645361e3c3cd2813dc9003948864718500646c300b061511e00003a918481a56859db0000000049454e44ae426082'),
	(27, '\x89504e470d0a1a0a0000000d494844520000004000000060080000000088ae2b34000000b449444154780162fa4f2160626060b0201e30600090011882a4088c1ac0305cc2e004f10033858ca68361930e2802a3e980503a68c20510e13e6803713a0488220184ab515883d60bc483512f104aca4480d1401c0d441080a4839de80024451c8618409c5aacaa460d184d8920309a0e68970e9420e03512000539163c1a0bb48b05e2018d63c11c0dd4c100c2853476011160d405832725ba1309b044eb68340e9e68a4008c46e3683482c0683a008c0ae900008fbfa8814f0b9a830000000049454e44ae426082'),
	(28, '\x89504e470d0a1a0a0000000d494844520000004000000060080000000088ae2b34000000b049444154780162fa4f216062a0108c1ac03008c3600f6e803dbe47a371304623c960341a07773496a0030308408be8d1681cdcd14824188d464834faf9f911196258948d06222410290243311067c201d8eb43d10b6860d40b233429a301d2d3413a1c808d22dd00b03604316a004d53620f3ab80001880800b3466381a6b14024188d05cc5870c10db087ea6820620622c960341047031104a8920e366dda04328b3c4c15175004465d00d860c80b00407680819370901d0000000049454e44ae426082'),
	(29, '\x89504e470d0a1a0a0000000d494844520000004400000060080000000081458b4e000000bb49444154780162fa4f05c0c44005806cc85c5c80903dc88610528b138c1a820946c304130cb130e9c205a03e1b62de2104a8ee9d646ce0adbcbcbc110ac07417d55d4236c0ef92bababa2f44188ddf10aca00c01a0f264188209460dc10443294c0ea10197a1ed1d22c0508a1d22c0a87730011dc2a4090bc0740881d29e484007ef1009465d820946c304138c860926180d134c301a269860344c30c168986082d130c104a361820946c304138c860926180d13c0300155c2040086cb8b7dadb70e630000000049454e44ae426082'),
	(30, '\x89504e470d0a1a0a0000000d494844520000004400000060080000000081458b4e000000c549444154780162fa4f05c0c4400530e80c59422cc0eaf941e71dcac0a87730c1200c93dbc4817a1040f7d020f40e2560d43b9860d085494c0ca623890783ce3b948141e89d461200bae7097be7113a40378261308609258070981001460dc104f8c364dbb66ddbae8001a64e2411fc861009460dc104a361820946c304138c860926a0439878797979e98001a6f548227470099160d4259860344c3001e130914307e418420420ec1222c0a8219860344c30c168986082d130c104a36102182618666102001e1fb47d6e08c3310000000049454e44ae426082'),
	(31, '\x89504e470d0a1a0a0000000d494844520000004400000060080000000081458b4e000000ad49444154780162fa4f05c0c44005402b436e800049ee23e492190880db5c42861005869d218bd1c1691080097223c0e2c5b80268d8850915c068986082d130c104a361820946c304138c860926180d134c301a269860344c30c168986082d130c104a361820946c304130ca6308985001e1e1e08030fc0f40844643079870a60d43b9860344c30c168986082d130c104f030090c0cc4942512c00d21523d56306a0826180d13c030c1e00913003ccb747d601c7d100000000049454e44ae426082'),
	(32, '\x89504e470d0a1a0a0000000d494844520000004400000060080000000081458b4e000000a749444154780162fa4f05c0c4400530180d590f0564786f307a870230ea1d4c301a269860344c30c168986002aa86c9c58b4a50709154c0305ab26101548d1d8ac0a84b30c168986082d130c104c861728474003110d91088081960d4104c301a269860344c30c168986082d130c104a361820946c304138c860926183e61a2afaf4f832ead0de90012c8c32760c160d43b9860344c00c304b030d12713804d841902e6904b00004720b27d3942f1670000000049454e44ae426082'),
	(33, '\x89504e470d0a1a0a0000000d494844520000004400000060080000000081458b4e000000b349444154780162fa4f05c0c44005306a0826180d134c301a26986010874918a9808181fa45812e0860061b6191411cb0e480e1eb9dd57520104a106086daf00d13f2c168986082d130c104a361820946c304138c86092620234c56a1025ab494c806647807138c1a820946c304138c860926180d134c301a269860344c30c168986002a430c1d6ab3e89014243f11a8229492c407209b15a30c1a8219860c884490f06c0f40c0d860d01c366095162832760010c5b8d7daaa243c10000000049454e44ae426082'),
	(34, '\x89504e470d0a1a0a0000000d49484452000000310000006008000000009125c5920000009a49444154780162fa4f2a606220158cea201e8c8615f180b2b02a29298983007c36e2b0e3110460d389430736a550401f1df170f0faf56b460888afadad853a0283a28fab4805a3ae221e8c8615f16034ac8807a361453c18fe6125272727872d3c86bfcf7181519f130f46c38a78301a56c40372c26a213280768b4142b86c25c70e52c100d8b10802f0b974005c450418751560c483e1125600483a5a9068c2e3db0000000049454e44ae426082'),
	(35, '\x89504e470d0a1a0a0000000d49484452000000310000006008000000009125c5920000009449444154780162fa4f2a6062201590a3a3130510b611dd8e9370804b2fba0e5cea1060b0ea2807031e283873e6cc19849bb1b106ab3f4805c3d91fe660802b4486b3cff183519f130fe81456b76fdf26de4d0cf4721589804e614522187515f16034ac8807a361453c180d2be2c16858110f46c38a78301a56d948007fb88de8b0525555c51f3aa8b2233aac0023110cceb00200a30c5090d6b347740000000049454e44ae426082'),
	(36, '\x89504e470d0a1a0a0000000d49484452000000310000006008000000009125c5920000008149444154780162fa4f2a606220150c4f1da9380072e80c4f9f1303467d4e3c180d2be2c16858110f46c38a7830d2c36a2114e00a31a8f4c2850c0c233eac4801233d5d910246c38a78301a56c403fa87950d0e80ec66fab92a1e15b0e002f1a3653b49807e31480a187515f160088555342e0018c8b743c81f20e7e2c4a4fb030010b05a90149f199e0000000049454e44ae426082'),
	(37, '\x89504e470d0a1a0a0000000d49484452000000310000006008000000009125c5920000009749444154780162fa4f2a606220158cea201e8c8615f16034ac8807a361453c18f461158707207973d0fb834840277ff44181014e80e25e3ab98a44c0c47092641da4023af9dc1a0a2ee004280ea78aab38b000245ba8620701306a07f16034ac88075409ab1f58009213a8620701306a07f160b08695390c10e995c1ea0f52c130f4c7223c00297886a1cf8904a33e078c78407a580100075d849007a669240000000049454e44ae426082');
INSERT INTO public."ShiftEntry" ("Id", "SiteId", "Name", "Days", "Start", "End", "Operators", "Breaks") VALUES
	(1, 1, 'Early shift', '{0,1,2,3,4,5,6}', '06:00:00', '14:00:00', 3, '[{"End": "09:30:00.0000000", "Start": "09:00:00.0000000"}]'),
	(2, 1, 'Late shift', '{0,1,2,3,4,5,6}', '14:00:00', '22:00:00', 2, '[{"End": "18:30:00.0000000", "Start": "18:00:00.0000000"}]');
INSERT INTO public."ShiftGoals" ("Id", "ShiftName", "ShiftStartUtc", "Station", "Sheets", "TakenUtc") VALUES
	(1, 'Early shift', '2026-11-25 06:00:00+00', 'BackExposure', 7, '2026-11-25 08:00:08.178918+00'),
	(2, 'Early shift', '2026-11-25 06:00:00+00', 'Imaging', 7, '2026-11-25 08:00:08.178918+00'),
	(3, 'Early shift', '2026-11-25 06:00:00+00', 'FaceExposure', 7, '2026-11-25 08:00:08.178918+00'),
	(4, 'Early shift', '2026-11-25 06:00:00+00', 'Washout', 7, '2026-11-25 08:00:08.178918+00'),
	(5, 'Early shift', '2026-11-25 06:00:00+00', 'Drying', 6, '2026-11-25 08:00:08.178918+00'),
	(6, 'Early shift', '2026-11-25 06:00:00+00', 'PostFinish', 7, '2026-11-25 08:00:08.178918+00'),
	(7, 'Early shift', '2026-11-25 06:00:00+00', 'Cutting', 7, '2026-11-25 08:00:08.178918+00');
INSERT INTO public."Stages" ("Id", "SheetId", "Station", "State", "EquipmentId", "LoadSeconds", "RunSeconds", "UnloadSeconds", "RunIsAttended", "OccupiesSeconds", "RestAfterSeconds", "Explanation", "Flags", "PlannedStartUtc", "PlannedFinishUtc", "DueByUtc", "StartedUtc", "StartedBy", "FinishedUtc", "FinishedBy", "Drawer", "SkippedBecause", "Repeats") VALUES
	(1, 1, 'BackExposure', 'Done', 1, 90, 101, 60, false, 101, 0, '1 min 41 s = 100 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-24 06:00:00+00', '2026-11-24 06:04:11+00', '2026-11-24 18:38:02+00', '2026-11-24 06:00:00+00', 'Dario', '2026-11-24 06:04:11+00', 'Dario', NULL, '', 0),
	(2, 1, 'Imaging', 'Done', 4, 180, 393, 120, false, 393, 0, '6 min 33 s = 550.1 mm along the axis / 84 mm/min (2 540 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-24 06:04:11+00', '2026-11-24 06:15:44+00', '2026-11-24 18:49:35+00', '2026-11-24 06:04:11+00', 'Chika', '2026-11-24 06:15:44+00', 'Chika', NULL, '', 0),
	(3, 1, 'FaceExposure', 'Done', 1, 120, 715, 60, false, 715, 0, '11 min 55 s = 10 800 mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-24 06:15:44+00', '2026-11-24 06:30:39+00', '2026-11-24 19:04:30+00', '2026-11-24 06:15:44+00', 'Dario', '2026-11-24 06:30:39+00', 'Dario', NULL, '', 0),
	(8, 2, 'BackExposure', 'Done', 1, 90, 101, 60, false, 101, 0, '1 min 41 s = 100 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-24 06:37:38+00', '2026-11-24 06:41:49+00', '2026-11-24 18:35:12+00', '2026-11-24 06:37:38+00', 'Dario', '2026-11-24 06:41:49+00', 'Dario', NULL, '', 0),
	(4, 1, 'Washout', 'Done', 5, 90, 1200, 60, false, 520, 0, '20 min = (1 200 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-24 06:30:39+00', '2026-11-24 06:53:09+00', '2026-11-24 19:27:00+00', '2026-11-24 06:30:39+00', 'Dario', '2026-11-24 06:53:09+00', 'Dario', NULL, '', 0),
	(9, 2, 'Imaging', 'Done', 4, 180, 443, 120, false, 443, 0, '7 min 23 s = 620 mm along the axis / 84 mm/min (2 540 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-24 06:41:49+00', '2026-11-24 06:54:12+00', '2026-11-24 18:47:35+00', '2026-11-24 06:41:49+00', 'Chika', '2026-11-24 06:54:12+00', 'Chika', NULL, '', 0),
	(10, 2, 'FaceExposure', 'Done', 1, 120, 715, 60, false, 715, 0, '11 min 55 s = 10 800 mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-24 06:54:12+00', '2026-11-24 07:09:07+00', '2026-11-24 19:02:30+00', '2026-11-24 06:54:12+00', 'Dario', '2026-11-24 07:09:07+00', 'Dario', NULL, '', 0),
	(11, 2, 'Washout', 'Done', 5, 90, 1200, 60, false, 520, 0, '20 min = (1 200 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-24 07:09:07+00', '2026-11-24 07:31:37+00', '2026-11-24 19:25:00+00', '2026-11-24 07:09:07+00', 'Dario', '2026-11-24 07:31:37+00', 'Dario', NULL, '', 0),
	(5, 1, 'Drying', 'Done', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-24 06:53:09+00', '2026-11-24 08:25:09+00', '2026-11-24 20:59:00+00', '2026-11-24 06:53:09+00', 'Chika', '2026-11-24 08:25:09+00', 'Chika', NULL, '', 0),
	(6, 1, 'PostFinish', 'Done', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-24 08:55:09+00', '2026-11-24 09:31:00+00', '2026-11-24 21:48:00+00', '2026-11-24 08:55:09+00', 'Dario', '2026-11-24 09:31:00+00', 'Dario', NULL, '', 0),
	(12, 2, 'Drying', 'Done', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-24 07:31:37+00', '2026-11-24 09:31:00+00', '2026-11-24 20:57:00+00', '2026-11-24 07:31:37+00', 'Chika', '2026-11-24 09:31:00+00', 'Chika', NULL, '', 0),
	(7, 1, 'Cutting', 'Done', 10, 60, 600, 60, true, 600, 0, '10 min = 5 plates × 2 min each, Cutting table', '', '2026-11-24 09:31:00+00', '2026-11-24 09:43:00+00', '2026-11-24 22:00:00+00', '2026-11-24 09:31:00+00', 'Ada', '2026-11-24 09:45:11+00', 'Ada', NULL, '', 0),
	(13, 2, 'PostFinish', 'Done', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-24 10:01:00+00', '2026-11-24 10:20:00+00', '2026-11-24 21:46:00+00', '2026-11-24 10:01:00+00', 'Dario', '2026-11-24 10:20:00+00', 'Dario', NULL, '', 0),
	(14, 2, 'Cutting', 'Done', 10, 60, 720, 60, true, 720, 0, '12 min = 6 plates × 2 min each, Cutting table', '', '2026-11-24 10:20:00+00', '2026-11-24 10:34:00+00', '2026-11-24 22:00:00+00', '2026-11-24 10:20:00+00', 'Ada', '2026-11-24 10:34:23+00', 'Ada', NULL, '', 0),
	(15, 3, 'BackExposure', 'Done', 1, 90, 101, 60, false, 101, 0, '1 min 41 s = 100 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-24 16:08:44+00', '2026-11-24 16:12:55+00', '2026-11-24 18:47:08+00', '2026-11-24 16:08:44+00', 'Dario', '2026-11-24 16:12:55+00', 'Dario', NULL, '', 0),
	(22, 4, 'BackExposure', 'Done', 2, 90, 106, 60, false, 106, 0, '1 min 46 s = 100 s × 15 / 14.2 mW/cm², Frame 2, read 24 Nov 2026', '', '2026-11-24 16:08:44+00', '2026-11-24 16:13:00+00', '2026-11-24 18:41:34+00', '2026-11-24 16:08:44+00', 'Ada', '2026-11-24 16:13:00+00', 'Ada', NULL, '', 0),
	(16, 3, 'Imaging', 'Done', 4, 180, 207, 120, false, 207, 0, '3 min 27 s = 290 mm along the axis / 84 mm/min (2 540 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-24 16:12:55+00', '2026-11-24 16:21:22+00', '2026-11-24 18:55:35+00', '2026-11-24 16:12:55+00', 'Chika', '2026-11-24 16:21:22+00', 'Chika', NULL, '', 0),
	(23, 4, 'Imaging', 'Done', 3, 180, 632, 120, false, 632, 0, '10 min 32 s = 590 mm along the axis / 56 mm/min (2 540 ppi, 16 channels, 350 rev/min), Imager A', '', '2026-11-24 16:13:00+00', '2026-11-24 16:28:32+00', '2026-11-24 18:53:35+00', '2026-11-24 16:13:00+00', 'Bruno', '2026-11-24 16:28:32+00', 'Bruno', NULL, '', 0),
	(17, 3, 'FaceExposure', 'Done', 1, 120, 715, 60, false, 715, 0, '11 min 55 s = 10 800 mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-24 16:21:22+00', '2026-11-24 16:36:17+00', '2026-11-24 19:10:30+00', '2026-11-24 16:21:22+00', 'Dario', '2026-11-24 16:36:17+00', 'Dario', NULL, '', 0),
	(24, 4, 'FaceExposure', 'Done', 2, 120, 740, 60, false, 740, 0, '12 min 20 s = 10 800 mJ/cm² / 14.6 mW/cm², Frame 2, read 24 Nov 2026', '', '2026-11-24 16:28:32+00', '2026-11-24 16:43:52+00', '2026-11-24 19:08:30+00', '2026-11-24 16:28:32+00', 'Ada', '2026-11-24 16:43:52+00', 'Ada', NULL, '', 0),
	(18, 3, 'Washout', 'Done', 5, 90, 1200, 60, false, 520, 0, '20 min = (1 200 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-24 16:36:17+00', '2026-11-24 16:58:47+00', '2026-11-24 19:33:00+00', '2026-11-24 16:36:17+00', 'Dario', '2026-11-24 16:58:47+00', 'Dario', NULL, '', 0),
	(25, 4, 'Washout', 'Done', 5, 90, 1200, 60, false, 520, 0, '20 min = (1 200 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-24 16:44:57+00', '2026-11-24 17:07:27+00', '2026-11-24 19:31:00+00', '2026-11-24 16:44:57+00', 'Dario', '2026-11-24 17:07:27+00', 'Dario', NULL, '', 0),
	(19, 3, 'Drying', 'Done', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-24 16:58:47+00', '2026-11-24 18:31:00+00', '2026-11-24 21:05:00+00', '2026-11-24 16:58:47+00', 'Chika', '2026-11-24 18:31:00+00', 'Chika', NULL, '', 0),
	(26, 4, 'Drying', 'Done', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-24 17:07:27+00', '2026-11-24 18:39:27+00', '2026-11-24 21:03:00+00', '2026-11-24 17:07:27+00', 'Chika', '2026-11-24 18:50:00+00', 'Chika', NULL, '', 0),
	(20, 3, 'PostFinish', 'Done', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-24 19:01:00+00', '2026-11-24 19:20:00+00', '2026-11-24 21:54:00+00', '2026-11-24 19:01:00+00', 'Dario', '2026-11-24 19:20:00+00', 'Dario', NULL, '', 0),
	(21, 3, 'Cutting', 'Done', 10, 60, 240, 60, true, 240, 0, '4 min = 2 plates × 2 min each, Cutting table', '', '2026-11-24 19:20:00+00', '2026-11-24 19:26:00+00', '2026-11-24 22:00:00+00', '2026-11-24 19:20:00+00', 'Ada', '2026-11-24 19:26:13+00', 'Ada', NULL, '', 0),
	(27, 4, 'PostFinish', 'Done', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-24 19:20:00+00', '2026-11-24 19:39:00+00', '2026-11-24 21:52:00+00', '2026-11-24 19:20:00+00', 'Dario', '2026-11-24 19:39:00+00', 'Dario', NULL, '', 0),
	(28, 4, 'Cutting', 'Done', 10, 60, 360, 60, true, 360, 0, '6 min = 3 plates × 2 min each, Cutting table', '', '2026-11-24 19:39:00+00', '2026-11-24 19:47:00+00', '2026-11-24 22:00:00+00', '2026-11-24 19:39:00+00', 'Ada', '2026-11-24 19:47:10+00', 'Ada', NULL, '', 0),
	(29, 5, 'BackExposure', 'Done', 1, 90, 42, 60, false, 42, 0, '42 s = 42 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 06:00:00+00', '2026-11-25 06:03:12+00', '2026-11-25 13:13:51+00', '2026-11-25 06:00:00+00', 'Dario', '2026-11-25 06:03:12+00', 'Dario', NULL, '', 0),
	(30, 5, 'Imaging', 'Done', 4, 180, 143, 120, false, 143, 0, '2 min 23 s = 200 mm along the axis / 84 mm/min (2 540 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-25 06:03:12+00', '2026-11-25 06:10:35+00', '2026-11-25 13:21:14+00', '2026-11-25 06:03:12+00', 'Chika', '2026-11-25 06:10:35+00', 'Chika', NULL, '', 0),
	(31, 5, 'FaceExposure', 'Done', 1, 120, 556, 60, false, 556, 0, '9 min 16 s = 8 400 mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 06:10:35+00', '2026-11-25 06:22:51+00', '2026-11-25 13:33:30+00', '2026-11-25 06:10:35+00', 'Dario', '2026-11-25 06:22:51+00', 'Dario', NULL, '', 0),
	(32, 5, 'Washout', 'Done', 6, 120, 1080, 90, false, 1080, 0, '18 min = fixed by the recipe, Water washer', '', '2026-11-25 06:22:51+00', '2026-11-25 06:44:21+00', '2026-11-25 13:55:00+00', '2026-11-25 06:22:51+00', 'Ada', '2026-11-25 06:44:21+00', 'Ada', NULL, '', 0),
	(36, 6, 'BackExposure', 'Done', 1, 90, 186, 60, false, 186, 0, '3 min 6 s = 185 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 06:46:16+00', '2026-11-25 06:51:52+00', '2026-11-25 07:27:38+00', '2026-11-25 06:46:16+00', 'Dario', '2026-11-25 06:51:52+00', 'Dario', NULL, '', 0),
	(37, 6, 'Imaging', 'Done', 4, 240, 298, 150, false, 298, 0, '4 min 58 s = 530 mm along the axis / 106.7 mm/min (2 000 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-25 06:51:52+00', '2026-11-25 07:03:20+00', '2026-11-25 07:39:06+00', '2026-11-25 06:51:52+00', 'Chika', '2026-11-25 07:03:20+00', 'Chika', NULL, '', 0),
	(33, 5, 'Drying', 'Done', 8, 60, 1500, 60, false, 1500, 600, '25 min = fixed by the recipe, then 10 min rest, Dryer', '', '2026-11-25 06:44:21+00', '2026-11-25 07:11:21+00', '2026-11-25 14:22:00+00', '2026-11-25 06:44:21+00', 'Chika', '2026-11-25 07:11:21+00', 'Chika', NULL, '', 0),
	(46, 7, 'Drying', 'Waiting', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-25 08:16:26+00', '2026-11-25 09:48:26+00', '2026-11-25 21:01:00+00', NULL, '', NULL, '', NULL, '', 0),
	(47, 7, 'PostFinish', 'Waiting', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-25 10:18:26+00', '2026-11-25 10:37:26+00', '2026-11-25 21:50:00+00', NULL, '', NULL, '', NULL, '', 0),
	(48, 7, 'Cutting', 'Waiting', 10, 60, 480, 60, true, 480, 0, '8 min = 4 plates × 2 min each, Cutting table', '', '2026-11-25 10:37:26+00', '2026-11-25 10:47:26+00', '2026-11-25 22:00:00+00', NULL, '', NULL, '', NULL, '', 0),
	(52, 8, 'Washout', 'Waiting', 5, 90, 1200, 60, false, 520, 0, '20 min = (1 200 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-25 08:02:36+00', '2026-11-25 08:25:06+00', '2026-11-25 19:29:00+00', NULL, '', NULL, '', NULL, '', 0),
	(53, 8, 'Drying', 'Waiting', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-25 08:25:06+00', '2026-11-25 09:57:06+00', '2026-11-25 21:01:00+00', NULL, '', NULL, '', NULL, '', 0),
	(54, 8, 'PostFinish', 'Waiting', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-25 10:37:26+00', '2026-11-25 10:56:26+00', '2026-11-25 21:50:00+00', NULL, '', NULL, '', NULL, '', 0),
	(55, 8, 'Cutting', 'Waiting', 10, 60, 480, 60, true, 480, 0, '8 min = 4 plates × 2 min each, Cutting table', '', '2026-11-25 10:56:26+00', '2026-11-25 11:06:26+00', '2026-11-25 22:00:00+00', NULL, '', NULL, '', NULL, '', 0),
	(38, 6, 'FaceExposure', 'Done', 1, 150, 894, 60, false, 894, 0, '14 min 54 s = 13 500 mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 07:03:20+00', '2026-11-25 07:21:44+00', '2026-11-25 07:57:30+00', '2026-11-25 07:03:20+00', 'Dario', '2026-11-25 07:21:44+00', 'Dario', NULL, '', 0),
	(42, 7, 'BackExposure', 'Done', 2, 90, 106, 60, false, 106, 0, '1 min 46 s = 100 s × 15 / 14.2 mW/cm², Frame 2, read 24 Nov 2026', '', '2026-11-25 07:20:49+00', '2026-11-25 07:25:05+00', '2026-11-25 18:37:39+00', '2026-11-25 07:20:49+00', 'Ada', '2026-11-25 07:25:05+00', 'Ada', NULL, '', 0),
	(59, 9, 'Washout', 'Waiting', 5, 90, 1080, 60, false, 400, 0, '18 min = (900 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-25 08:11:16+00', '2026-11-25 08:31:46+00', '2026-11-26 06:18:00+00', NULL, '', NULL, '', NULL, '', 0),
	(60, 9, 'Drying', 'Waiting', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-25 08:31:46+00', '2026-11-25 10:03:46+00', '2026-11-26 07:50:00+00', NULL, '', NULL, '', NULL, '', 0),
	(49, 8, 'BackExposure', 'Done', 1, 90, 101, 60, false, 101, 0, '1 min 41 s = 100 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 07:22:19+00', '2026-11-25 07:26:30+00', '2026-11-25 18:37:39+00', '2026-11-25 07:22:19+00', 'Dario', '2026-11-25 07:26:30+00', 'Dario', NULL, '', 0),
	(34, 5, 'PostFinish', 'Done', 9, 60, 360, 60, false, 360, 0, '6 min = the longer of 6 min post exposure and 5 min light finishing, at once, Finisher', '', '2026-11-25 07:21:21+00', '2026-11-25 07:29:21+00', '2026-11-25 14:40:00+00', '2026-11-25 07:21:21+00', 'Dario', '2026-11-25 07:29:21+00', 'Dario', NULL, '', 0),
	(56, 9, 'BackExposure', 'Done', 2, 90, 106, 60, false, 106, 0, '1 min 46 s = 100 s × 15 / 14.2 mW/cm², Frame 2, read 24 Nov 2026', '', '2026-11-25 07:25:38+00', '2026-11-25 07:29:54+00', '2026-11-25 21:32:02+00', '2026-11-25 07:25:38+00', 'Ada', '2026-11-25 07:29:54+00', 'Ada', NULL, '', 0),
	(35, 5, 'Cutting', 'Done', 10, 60, 180, 60, true, 180, 0, '3 min = 2 plates × 1 min 30 s each, Cutting table', '', '2026-11-25 07:29:21+00', '2026-11-25 07:34:21+00', '2026-11-25 14:45:00+00', '2026-11-25 07:29:21+00', 'Ada', '2026-11-25 07:34:21+00', 'Ada', NULL, '', 0);
INSERT INTO public."Stages" ("Id", "SheetId", "Station", "State", "EquipmentId", "LoadSeconds", "RunSeconds", "UnloadSeconds", "RunIsAttended", "OccupiesSeconds", "RestAfterSeconds", "Explanation", "Flags", "PlannedStartUtc", "PlannedFinishUtc", "DueByUtc", "StartedUtc", "StartedBy", "FinishedUtc", "FinishedBy", "Drawer", "SkippedBecause", "Repeats") VALUES
	(43, 7, 'Imaging', 'Done', 4, 180, 536, 120, false, 536, 0, '8 min 56 s = 750 mm along the axis / 84 mm/min (2 540 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-25 07:25:05+00', '2026-11-25 07:39:01+00', '2026-11-25 18:51:35+00', '2026-11-25 07:25:05+00', 'Chika', '2026-11-25 07:39:01+00', 'Chika', NULL, '', 0),
	(50, 8, 'Imaging', 'Done', 3, 180, 804, 120, false, 804, 0, '13 min 24 s = 750 mm along the axis / 56 mm/min (2 540 ppi, 16 channels, 350 rev/min), Imager A', '', '2026-11-25 07:26:30+00', '2026-11-25 07:44:54+00', '2026-11-25 18:51:35+00', '2026-11-25 07:26:30+00', 'Bruno', '2026-11-25 07:44:54+00', 'Bruno', NULL, '', 0),
	(51, 8, 'FaceExposure', 'Running', 2, 120, 740, 60, false, 740, 0, '12 min 20 s = 10 800 mJ/cm² / 14.6 mW/cm², Frame 2, read 24 Nov 2026', '', '2026-11-25 07:44:54+00', '2026-11-25 08:00:14+00', '2026-11-25 19:06:30+00', '2026-11-25 07:44:54+00', 'Ada', NULL, '', NULL, '', 0),
	(39, 6, 'Washout', 'Done', 7, 150, 1260, 120, false, 1260, 0, '21 min = fixed by the recipe, Thermal unit', '', '2026-11-25 07:21:44+00', '2026-11-25 07:47:14+00', '2026-11-25 08:23:00+00', '2026-11-25 07:21:44+00', 'Bruno', '2026-11-25 07:47:14+00', 'Bruno', NULL, '', 0),
	(40, 6, 'PostFinish', 'Running', 9, 60, 1080, 60, false, 1080, 0, '18 min = 10 min post exposure + 8 min light finishing, Finisher', '', '2026-11-25 07:47:14+00', '2026-11-25 08:07:14+00', '2026-11-25 08:43:00+00', '2026-11-25 07:47:14+00', 'Dario', NULL, '', NULL, '', 0),
	(57, 9, 'Imaging', 'Done', 4, 180, 393, 120, false, 393, 0, '6 min 33 s = 550.1 mm along the axis / 84 mm/min (2 540 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-25 07:39:01+00', '2026-11-25 07:50:34+00', '2026-11-25 21:43:35+00', '2026-11-25 07:39:01+00', 'Chika', '2026-11-25 07:50:34+00', 'Chika', NULL, '', 0),
	(44, 7, 'FaceExposure', 'Done', 1, 120, 715, 60, false, 715, 0, '11 min 55 s = 10 800 mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 07:39:01+00', '2026-11-25 07:53:56+00', '2026-11-25 19:06:30+00', '2026-11-25 07:39:01+00', 'Dario', '2026-11-25 07:53:56+00', 'Dario', NULL, '', 0),
	(45, 7, 'Washout', 'Running', 5, 90, 1200, 60, false, 520, 0, '20 min = (1 200 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-25 07:53:56+00', '2026-11-25 08:16:26+00', '2026-11-25 19:29:00+00', '2026-11-25 07:53:56+00', 'Dario', NULL, '', NULL, '', 0),
	(58, 9, 'FaceExposure', 'Running', 1, 120, 715, 60, false, 715, 0, '11 min 55 s = 10 800 mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 07:53:56+00', '2026-11-25 08:08:51+00', '2026-11-25 21:58:30+00', '2026-11-25 07:53:56+00', 'Dario', NULL, '', NULL, '', 0),
	(41, 6, 'Cutting', 'Waiting', 10, 60, 900, 60, true, 900, 0, '15 min = 6 plates × 2 min 30 s each, Cutting table', '', '2026-11-25 08:07:14+00', '2026-11-25 08:24:14+00', '2026-11-25 09:00:00+00', NULL, '', NULL, '', NULL, '', 0),
	(70, 11, 'BackExposure', 'Done', 1, 90, 101, 60, false, 101, 0, '1 min 41 s = 100 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 07:27:08+00', '2026-11-25 07:31:19+00', '2026-11-25 21:32:02+00', '2026-11-25 07:27:08+00', 'Dario', '2026-11-25 07:31:20+00', 'Dario', NULL, '', 0),
	(63, 10, 'BackExposure', 'Done', 2, 90, 106, 60, false, 106, 0, '1 min 46 s = 100 s × 15 / 14.2 mW/cm², Frame 2, read 24 Nov 2026', '', '2026-11-25 07:29:54+00', '2026-11-25 07:34:10+00', '2026-11-25 21:46:27+00', '2026-11-25 07:29:54+00', 'Ada', '2026-11-25 07:34:12+00', 'Ada', NULL, '', 0),
	(64, 10, 'Imaging', 'Running', 4, 180, 393, 120, false, 393, 0, '6 min 33 s = 550.1 mm along the axis / 84 mm/min (2 540 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-25 07:50:34+00', '2026-11-25 08:02:07+00', '2026-11-25 21:58:00+00', '2026-11-25 07:50:34+00', 'Chika', NULL, '', NULL, '', 0),
	(71, 11, 'Imaging', 'Running', 3, 180, 589, 120, false, 589, 0, '9 min 49 s = 550.1 mm along the axis / 56 mm/min (2 540 ppi, 16 channels, 350 rev/min), Imager A', '', '2026-11-25 07:44:54+00', '2026-11-25 08:00:07.819478+00', '2026-11-25 21:43:35+00', '2026-11-25 07:44:54+00', 'Bruno', NULL, '', NULL, '', 0),
	(66, 10, 'Washout', 'Waiting', 5, 90, 888, 60, false, 208, 0, '14 min 48 s = (420 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-25 08:17:56+00', '2026-11-25 08:35:14+00', '2026-11-26 06:20:00+00', NULL, '', NULL, '', NULL, '', 0),
	(67, 10, 'Drying', 'Waiting', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-25 08:35:14+00', '2026-11-25 10:07:14+00', '2026-11-26 07:52:00+00', NULL, '', NULL, '', NULL, '', 0),
	(65, 10, 'FaceExposure', 'Waiting', 2, 120, 740, 60, false, 740, 0, '12 min 20 s = 10 800 mJ/cm² / 14.6 mW/cm², Frame 2, read 24 Nov 2026', '', '2026-11-25 08:02:07+00', '2026-11-25 08:17:27+00', '2026-11-26 06:02:42+00', NULL, '', NULL, '', NULL, '', 0),
	(72, 11, 'FaceExposure', 'Waiting', 1, 120, 715, 60, false, 715, 0, '11 min 55 s = 10 800 mJ/cm² / 15.1 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 08:08:51+00', '2026-11-25 08:23:46+00', '2026-11-25 21:58:30+00', NULL, '', NULL, '', NULL, '', 0),
	(77, 12, 'BackExposure', 'Waiting', 1, 90, 101, 60, false, 101, 0, '1 min 41 s = 100 s × 15 / 14.9 mW/cm², Frame 1, read 22 Nov 2026', '', '2026-11-25 08:08:51+00', '2026-11-25 08:13:02+00', '2026-11-25 18:43:56+00', NULL, '', NULL, '', NULL, '', 0),
	(78, 12, 'Imaging', 'Waiting', 4, 180, 279, 120, false, 279, 0, '4 min 39 s = 390.1 mm along the axis / 84 mm/min (2 540 ppi, 24 channels, 350 rev/min), Imager B', '', '2026-11-25 08:13:02+00', '2026-11-25 08:22:41+00', '2026-11-25 18:53:35+00', NULL, '', NULL, '', NULL, '', 0),
	(79, 12, 'FaceExposure', 'Waiting', 2, 120, 740, 60, false, 740, 0, '12 min 20 s = 10 800 mJ/cm² / 14.6 mW/cm², Frame 2, read 24 Nov 2026', '', '2026-11-25 08:22:41+00', '2026-11-25 08:38:01+00', '2026-11-25 19:08:30+00', NULL, '', NULL, '', NULL, '', 0),
	(80, 12, 'Washout', 'Waiting', 5, 90, 1080, 60, false, 400, 0, '18 min = (900 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-25 08:38:01+00', '2026-11-25 08:58:31+00', '2026-11-25 19:29:00+00', NULL, '', NULL, '', NULL, '', 0),
	(81, 12, 'Drying', 'Waiting', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-25 08:58:31+00', '2026-11-25 10:30:31+00', '2026-11-25 21:01:00+00', NULL, '', NULL, '', NULL, '', 0),
	(82, 12, 'PostFinish', 'Waiting', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-25 11:00:31+00', '2026-11-25 11:19:31+00', '2026-11-25 21:50:00+00', NULL, '', NULL, '', NULL, '', 0),
	(83, 12, 'Cutting', 'Waiting', 10, 60, 480, 60, true, 480, 0, '8 min = 4 plates × 2 min each, Cutting table', '', '2026-11-25 11:19:31+00', '2026-11-25 11:29:31+00', '2026-11-25 22:00:00+00', NULL, '', NULL, '', NULL, '', 0),
	(61, 9, 'PostFinish', 'Waiting', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-25 10:56:26+00', '2026-11-25 11:15:26+00', '2026-11-26 08:39:00+00', NULL, '', NULL, '', NULL, '', 0),
	(62, 9, 'Cutting', 'Waiting', 10, 60, 240, 60, true, 240, 0, '4 min = 2 plates × 2 min each, Cutting table', '', '2026-11-25 11:15:26+00', '2026-11-25 11:21:26+00', '2026-11-26 08:45:00+00', NULL, '', NULL, '', NULL, '', 0),
	(68, 10, 'PostFinish', 'Waiting', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-25 11:15:26+00', '2026-11-25 11:34:26+00', '2026-11-26 08:41:00+00', NULL, '', NULL, '', NULL, '', 0),
	(69, 10, 'Cutting', 'Waiting', 10, 60, 120, 60, true, 120, 0, '2 min = 1 plate × 2 min each, Cutting table', '', '2026-11-25 11:34:26+00', '2026-11-25 11:38:26+00', '2026-11-26 08:45:00+00', NULL, '', NULL, '', NULL, '', 0),
	(75, 11, 'PostFinish', 'Waiting', 9, 60, 1020, 60, false, 1020, 0, '17 min = 8 min post exposure + 9 min light finishing, Finisher', '', '2026-11-25 11:34:26+00', '2026-11-25 11:53:26+00', '2026-11-26 08:39:00+00', NULL, '', NULL, '', NULL, '', 0),
	(76, 11, 'Cutting', 'Waiting', 10, 60, 240, 60, true, 240, 0, '4 min = 2 plates × 2 min each, Cutting table', '', '2026-11-25 11:53:26+00', '2026-11-25 11:59:26+00', '2026-11-26 08:45:00+00', NULL, '', NULL, '', NULL, '', 0),
	(73, 11, 'Washout', 'Waiting', 5, 90, 1080, 60, false, 400, 0, '18 min = (900 mm sheet + 1 800 mm line) / 150 mm/min, Line washer', '', '2026-11-25 08:23:46+00', '2026-11-25 08:44:16+00', '2026-11-26 06:18:00+00', NULL, '', NULL, '', NULL, '', 0),
	(74, 11, 'Drying', 'Waiting', 8, 60, 5400, 60, false, 5400, 1800, '1 h 30 min = fixed by the recipe, then 30 min rest, Dryer', '', '2026-11-25 08:44:16+00', '2026-11-25 10:16:16+00', '2026-11-26 07:50:00+00', NULL, '', NULL, '', NULL, '', 0);
INSERT INTO public."TicketTexts" ("TicketId", "Text", "Days") VALUES
	(1, 't1vbp1c65
bramblewood bakery
rye loaf bag 500 g
press 1 wide film
aster 170
cyan
magenta
yellow
black
deep violet
s1vbp1c62
l 2331', '20261124 202611'),
	(2, 'tq4m2g2qk
kestrel point coffee
house roast 1 kg front
press 1 wide film
aster 170
cyan
magenta
yellow
black
brand red 2
leaf green
sq4m2g2qh
l 2331', '20261124 202611'),
	(3, 'tebwd0qaa
old quarry spring water
still 1 5 l 6 pack wrap
press 1 wide film
aster 170
cyan
magenta
yellow
black
leaf green
sebwd0qa7
sj3qees1r
l 2331', '20261124 202611'),
	(4, 't5k6qfdvr
marigold finch tea
evening blend carton
press 2 labels
birch 114
yellow
black
s0ja5e65p
l 2441', '20261125 202611'),
	(5, 'tttf404e0
northmere dairy
butter foil 250 g
press 3 board
corvid 284
cyan
magenta
yellow
black
leaf green
white
sd2ttdh94
l 2541', '20261125 202611'),
	(6, 't9b1rxfjx
pillow fort snacks
sea salt crisps 150 g
press 1 wide film
aster 170
cyan
magenta
yellow
black
s4a56w7t0
sshdhcwdp
l 2331', '20261125 202611'),
	(7, 't0ja5e65s
saltgrass seafood
cod fillets sleeve
press 1 wide film
aster 170
cyan
magenta
yellow
black
leaf green
s8208c9h8
sgrnvvk03
sx98jv04j
l 2341', '20261126 202611'),
	(8, 'tnsjfwtp2
tin lantern pet food
puppy dry food 3 kg
press 1 wide film
aster 170
cyan
magenta
yellow
black
smggxbmnf
l 2341', '20261125 202611');
SELECT pg_catalog.setval('public."AccountClaims_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."Accounts_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."ApiKeys_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."ArrivedFiles_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."CalendarFeeds_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."ClosedDay_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."Customers_Id_seq"', 10, true);
SELECT pg_catalog.setval('public."Cylinder_Id_seq"', 7, true);
SELECT pg_catalog.setval('public."Downtimes_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."DutyChanges_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."Equipment_Id_seq"', 10, true);
SELECT pg_catalog.setval('public."Handovers_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."IdempotentCalls_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."LampReadings_Id_seq"', 40, true);
SELECT pg_catalog.setval('public."Materials_Id_seq"', 3, true);
SELECT pg_catalog.setval('public."Orders_Id_seq"', 8, true);
SELECT pg_catalog.setval('public."Placements_Id_seq"', 41, true);
SELECT pg_catalog.setval('public."Plates_Id_seq"', 41, true);
SELECT pg_catalog.setval('public."Presses_Id_seq"', 3, true);
SELECT pg_catalog.setval('public."RecipeRevisions_Id_seq"', 6, true);
SELECT pg_catalog.setval('public."Remakes_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."Remnants_Id_seq"', 4, true);
SELECT pg_catalog.setval('public."Separations_Id_seq"', 37, true);
SELECT pg_catalog.setval('public."SheetLayouts_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."Sheets_Id_seq"', 12, true);
SELECT pg_catalog.setval('public."ShiftEntry_Id_seq"', 2, true);
SELECT pg_catalog.setval('public."ShiftGoals_Id_seq"', 7, true);
SELECT pg_catalog.setval('public."Sites_Id_seq"', 1, true);
SELECT pg_catalog.setval('public."StageDecisions_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."StageReadings_Id_seq"', 1, false);
SELECT pg_catalog.setval('public."Stages_Id_seq"', 83, true);
SELECT pg_catalog.setval('public."StepTests_Id_seq"', 1, true);
SELECT pg_catalog.setval('public."StockLots_Id_seq"', 12, true);
SELECT pg_catalog.setval('public."StockSizes_Id_seq"', 6, true);
SELECT pg_catalog.setval('public."Tablets_Id_seq"', 1, false);
